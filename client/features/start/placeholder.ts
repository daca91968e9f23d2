import * as vscode from 'vscode';

/** Tells in an empty file of ours how it can be begun; gone with the first letter. */
export function hintAtEmptyFiles(languages: readonly string[]): vscode.Disposable {
  const decoration = vscode.window.createTextEditorDecorationType({
    after: {
      contentText: vscode.l10n.t(
        'Ask for suggestions to begin, or run “Fettle: New machine” or “Fettle: New part sheet”',
      ),
      color: new vscode.ThemeColor('input.placeholderForeground'),
      fontStyle: 'italic',
    },
  });
  const show = (editor: vscode.TextEditor | undefined): void => {
    if (!editor || !languages.includes(editor.document.languageId)) return;
    const isEmpty = editor.document.lineCount === 1 && editor.document.lineAt(0).isEmptyOrWhitespace;
    editor.setDecorations(decoration, isEmpty ? [new vscode.Range(0, 0, 0, 0)] : []);
  };
  show(vscode.window.activeTextEditor);
  return vscode.Disposable.from(
    decoration,
    vscode.window.onDidChangeActiveTextEditor(show),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      for (const editor of vscode.window.visibleTextEditors) if (editor.document === document) show(editor);
    }),
  );
}
