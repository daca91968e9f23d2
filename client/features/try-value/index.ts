import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { TRY_VALUES, type TriedValues, type TryValuesParams } from '../../../server/protocol/private.ts';
import { type MadePages, nameOf } from '../pages/index.ts';

/** The command behind the links of hovers: asks for another value and shows what it would change, changing nothing. */
export function registerTryValue(
  client: BaseLanguageClient,
  pages: MadePages,
  log: vscode.LogOutputChannel,
): vscode.Disposable {
  const tryValue = async (given: unknown, path: unknown, now: unknown): Promise<void> => {
    if (typeof given !== 'string' || typeof path !== 'string') return;
    const value = await vscode.window.showInputBox({
      title: vscode.l10n.t('Try another value of {0}', path),
      prompt: vscode.l10n.t('Shows what would change. The text stays as it is.'),
      value: typeof now === 'string' ? now : '',
    });
    if (value === undefined || value.trim() === '') return;
    try {
      const params: TryValuesParams = { uri: given, changes: [{ path, value: value.trim() }] };
      const answer = await client.sendRequest<TriedValues | null>(TRY_VALUES, params);
      if (answer?.refused !== undefined) return void vscode.window.showInformationMessage(answer.refused);
      const uri = client.protocol2CodeConverter.asUri(given);
      if (answer)
        await pages.show(uri, vscode.l10n.t('{0} with another value', nameOf(uri)), answer.markdown);
    } catch (error) {
      log.error(error instanceof Error ? error : String(error));
      void vscode.window.showErrorMessage(
        vscode.l10n.t('The value could not be tried; the log has the details.'),
      );
    }
  };
  return vscode.commands.registerCommand('fettle.tryValue', tryValue);
}
