import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions, Middleware } from 'vscode-languageclient';

/** The languages that the server serves; both on any scheme, so that untitled and virtual files work too. */
export const MACHINE = 'fettle-machine';
export const PART = 'fettle-part';
export const PROJECT = 'fettle-project';

/** What the client is told in any editor, whatever the server runs in. */
export function clientOptions(log: vscode.LogOutputChannel, middleware: Middleware): LanguageClientOptions {
  return {
    documentSelector: [{ language: MACHINE }, { language: PART }, { language: PROJECT }],
    outputChannel: log,
    // Links in hovers may ask for a value to be tried, and do nothing else. What is said is in the editor's language.
    initializationOptions: {
      commandLinks: true,
      readsFiles: true,
      showsPages: true,
      hearsChecks: true,
      words: vscode.l10n.bundle,
    },
    markdown: { isTrusted: { enabledCommands: ['fettle.tryValue'] } },
    middleware,
  };
}

/** Starts the server, or says kindly that it could not be started and where to read more. Never rejects. */
export async function startServer(client: BaseLanguageClient, log: vscode.LogOutputChannel): Promise<void> {
  const failed = vscode.l10n.t(
    "Fettle's language server did not start, so nothing is checked. Colours and indentation still work.",
  );
  await orSayWhy(failed, () => client.start(), log);
}

/** Registers the command that ends the server and starts a fresh one. */
export function registerRestart(client: BaseLanguageClient, log: vscode.LogOutputChannel): vscode.Disposable {
  return vscode.commands.registerCommand('fettle.restartServer', () =>
    orSayWhy(
      vscode.l10n.t(
        "Fettle's language server did not restart, so nothing is checked. Colours and indentation still work.",
      ),
      () => restart(client),
      log,
    ),
  );
}

async function restart(client: BaseLanguageClient): Promise<void> {
  if (!client.needsStart()) await client.stop();
  await client.start();
}

async function orSayWhy(
  failed: string,
  act: () => Promise<void>,
  log: vscode.LogOutputChannel,
): Promise<void> {
  try {
    await act();
  } catch (error) {
    log.error(error instanceof Error ? error : String(error));
    void offerRestart(failed, log);
  }
}

async function offerRestart(message: string, log: vscode.LogOutputChannel): Promise<void> {
  const [tryAgain, showLog] = [vscode.l10n.t('Try again'), vscode.l10n.t('Show log')];
  const chosen = await vscode.window.showErrorMessage(message, tryAgain, showLog);
  if (chosen === showLog) log.show();
  if (chosen === tryAgain) await vscode.commands.executeCommand('fettle.restartServer');
}
