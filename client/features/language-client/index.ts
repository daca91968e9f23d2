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
      words: vscode.l10n.bundle,
    },
    markdown: { isTrusted: { enabledCommands: ['fettle.tryValue'] } },
    middleware,
  };
}

/** Starts the server, or says kindly that it could not be started and where to read more. Never rejects. */
export async function startServer(client: BaseLanguageClient, log: vscode.LogOutputChannel): Promise<void> {
  await orSayWhy('start', () => client.start(), log);
}

/** Registers the command that ends the server and starts a fresh one. */
export function registerRestart(client: BaseLanguageClient, log: vscode.LogOutputChannel): vscode.Disposable {
  return vscode.commands.registerCommand('fettle.restartServer', () =>
    orSayWhy('restart', () => restart(client), log),
  );
}

async function restart(client: BaseLanguageClient): Promise<void> {
  if (!client.needsStart()) await client.stop();
  await client.start();
}

async function orSayWhy(what: string, act: () => Promise<void>, log: vscode.LogOutputChannel): Promise<void> {
  try {
    await act();
  } catch (error) {
    log.error(error instanceof Error ? error : String(error));
    const message = `Fettle's language server did not ${what}, so nothing is checked. Colours and indentation still work.`;
    void offerRestart(message, log);
  }
}

async function offerRestart(message: string, log: vscode.LogOutputChannel): Promise<void> {
  const chosen = await vscode.window.showErrorMessage(message, 'Try again', 'Show log');
  if (chosen === 'Show log') log.show();
  if (chosen === 'Try again') await vscode.commands.executeCommand('fettle.restartServer');
}
