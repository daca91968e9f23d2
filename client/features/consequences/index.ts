import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { CONSEQUENCES, type Consequences } from '../../../server/protocol/private.ts';
import { type MadePages, nameOf } from '../pages/index.ts';
import { readFromHead } from './git.ts';

/** The command that shows what follows from the change since the last commit, as a preview beside the text. */
export function registerConsequences(
  client: BaseLanguageClient,
  pages: MadePages,
  log: vscode.LogOutputChannel,
): vscode.Disposable {
  const compare = async (given: unknown): Promise<void> => {
    const uri = given instanceof vscode.Uri ? given : vscode.window.activeTextEditor?.document.uri;
    if (!uri)
      return void vscode.window.showInformationMessage(
        vscode.l10n.t('Open a machine definition to see what follows from its changes.'),
      );
    try {
      const then = await readFromHead(uri);
      if (then.kind === 'unavailable') return void vscode.window.showInformationMessage(then.why);
      const wire = (each: vscode.Uri): string => client.code2ProtocolConverter.asUri(each);
      const texts = then.texts.map(({ uri: file, text }) => ({ uri: wire(file), text }));
      const answer = await client.sendRequest<Consequences | null>(CONSEQUENCES, { uri: wire(uri), texts });
      if (answer) await pages.show(uri, vscode.l10n.t('{0} since HEAD', nameOf(uri)), answer.markdown);
    } catch (error) {
      log.error(error instanceof Error ? error : String(error));
      void vscode.window.showErrorMessage(
        vscode.l10n.t('The consequences could not be worked out; the log has the details.'),
      );
    }
  };

  return vscode.commands.registerCommand('fettle.compareWithHead', compare);
}
