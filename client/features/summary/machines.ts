import * as vscode from 'vscode';

/** The last part of a file's path, as a person calls it. */
export function nameOf(uri: vscode.Uri): string {
  return uri.path.slice(uri.path.lastIndexOf('/') + 1);
}

/** The open text of this file, if it is open in the editor at all. */
export function findOpen(uri: vscode.Uri): vscode.TextDocument | undefined {
  const wanted = uri.toString();
  return vscode.workspace.textDocuments.find(
    (document) => document.uri.toString() === wanted && !document.isClosed,
  );
}

/** The machine that the person most likely means: in the active editor, else in any visible one. */
export function findVisible(language: string): vscode.TextDocument | undefined {
  const editors = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors];
  return editors.find((editor) => editor?.document.languageId === language)?.document;
}

/** The column for a text: where it stands already, else beside other texts; never over the page in column `avoid`. */
export function chooseColumn(uri: vscode.Uri, avoid: vscode.ViewColumn | undefined): vscode.ViewColumn {
  const editors = vscode.window.visibleTextEditors;
  const own = editors.find(({ document }) => document.uri.toString() === uri.toString());
  const other = editors.find(({ viewColumn }) => viewColumn !== undefined && viewColumn !== avoid);
  const free = avoid === vscode.ViewColumn.One ? vscode.ViewColumn.Beside : vscode.ViewColumn.One;
  return own?.viewColumn ?? other?.viewColumn ?? free;
}
