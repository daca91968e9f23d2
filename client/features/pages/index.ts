import * as vscode from 'vscode';

/** Pages that are made, not stored: answers of the server as Markdown. */
const SCHEME = 'fettle-page';

/** Shows Markdown that was made for a document as a preview beside it; the same name replaces what it showed. */
export interface MadePages extends vscode.Disposable {
  readonly show: (of: vscode.Uri, name: string, markdown: string) => Promise<void>;
}

/** Registers the place where made pages stand. */
export function registerPages(): MadePages {
  const made = new Map<string, string>();
  const changed = new vscode.EventEmitter<vscode.Uri>();
  const disposables = vscode.Disposable.from(
    changed,
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
      onDidChange: changed.event,
      provideTextDocumentContent: (page) => made.get(page.toString()) ?? '',
    }),
    vscode.workspace.onDidCloseTextDocument(({ uri }) => void made.delete(uri.toString())),
  );
  return {
    dispose: () => void disposables.dispose(),
    show: async (of, name, markdown) => {
      const page = vscode.Uri.from({ scheme: SCHEME, path: `/${name}.md`, query: of.toString() });
      made.set(page.toString(), markdown);
      changed.fire(page);
      await vscode.commands.executeCommand('markdown.showPreviewToSide', page);
    },
  };
}

/** What a document is called, for the name of a page about it. */
export function nameOf({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
