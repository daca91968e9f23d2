import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { CONSEQUENCES, type Consequences } from '../../../server/protocol/private.ts';
import { readFromHead } from './git.ts';

/** Documents that are made, not stored: what follows from a change. */
const SCHEME = 'fettle-consequences';

/** The command that shows what follows from the change since the last commit, as a preview beside the text. */
export function registerConsequences(
  client: LanguageClient,
  log: vscode.LogOutputChannel,
): vscode.Disposable {
  const made = new Map<string, string>();
  const changed = new vscode.EventEmitter<vscode.Uri>();

  const compare = async (given: unknown): Promise<void> => {
    const uri = given instanceof vscode.Uri ? given : vscode.window.activeTextEditor?.document.uri;
    if (!uri)
      return void vscode.window.showInformationMessage(
        'Open a machine definition to see what follows from its changes.',
      );
    try {
      const then = await readFromHead(uri);
      if (then.kind === 'unavailable') return void vscode.window.showInformationMessage(then.why);
      const wire = (each: vscode.Uri): string => client.code2ProtocolConverter.asUri(each);
      const texts = then.texts.map(({ uri: file, text }) => ({ uri: wire(file), text }));
      const answer = await client.sendRequest<Consequences | null>(CONSEQUENCES, { uri: wire(uri), texts });
      if (answer) await show(uri, answer.markdown);
    } catch (error) {
      log.error(error instanceof Error ? error : String(error));
      void vscode.window.showErrorMessage(
        'The consequences could not be worked out; the log has the details.',
      );
    }
  };

  const show = async (uri: vscode.Uri, markdown: string): Promise<void> => {
    const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
    const page = vscode.Uri.from({ scheme: SCHEME, path: `/${name} since HEAD.md`, query: uri.toString() });
    made.set(page.toString(), markdown);
    changed.fire(page);
    await vscode.commands.executeCommand('markdown.showPreviewToSide', page);
  };

  return vscode.Disposable.from(
    changed,
    vscode.commands.registerCommand('fettle.compareWithHead', compare),
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
      onDidChange: changed.event,
      provideTextDocumentContent: (page) => made.get(page.toString()) ?? '',
    }),
    vscode.workspace.onDidCloseTextDocument(({ uri }) => void made.delete(uri.toString())),
  );
}
