import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { registerConsequences } from './features/consequences/index.ts';
import { showPages } from './features/findings/index.ts';
import { registerGoTo } from './features/go-to/index.ts';
import { serveFiles } from './features/language-client/client-files.ts';
import {
  clientOptions,
  MACHINE,
  PART,
  PROJECT,
  registerRestart,
  startServer,
} from './features/language-client/index.ts';
import { registerPages } from './features/pages/index.ts';
import { registerStart } from './features/start/index.ts';
import { registerStatus } from './features/status/index.ts';
import { registerSummary } from './features/summary/index.ts';
import { registerTryValue } from './features/try-value/index.ts';

/** What differs between an editor with processes and one in a browser. */
export type CreateClient = (
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
) => BaseLanguageClient;

let stop: (() => Promise<void>) | undefined;

/** Starts everything. Never rejects: what went wrong is shown, with what to do. */
export async function start(context: vscode.ExtensionContext, createClient: CreateClient): Promise<void> {
  const log = vscode.window.createOutputChannel('Fettle', { log: true });
  context.subscriptions.push(log);
  try {
    const client = createClient(context, clientOptions(log, showPages(context)));
    const pages = registerPages();
    stop = () => client.stop();
    context.subscriptions.push(
      serveFiles(client),
      registerRestart(client, log),
      pages,
      registerConsequences(client, pages, log),
      registerTryValue(client, pages, log),
      registerGoTo(client),
      registerStatus(client, [MACHINE, PART, PROJECT]),
      registerStart(context, client, [MACHINE, PART, PROJECT]),
      registerSummary(context, client, MACHINE, log),
    );
    await startServer(client, log);
  } catch (error) {
    log.error(error instanceof Error ? error : String(error));
    void sayItFailed(error, log);
  }
}

/** Called by the editor when the extension ends; it waits for the server to be gone. */
export async function deactivate(): Promise<void> {
  await stop?.().catch(() => undefined); // A server that never started, or has ended, has nothing to stop.
}

async function sayItFailed(error: unknown, log: vscode.LogOutputChannel): Promise<void> {
  const why = error instanceof Error ? error.message : String(error);
  const message = vscode.l10n.t(
    'Fettle could not start ({0}). Reloading the window may help; the log has the details.',
    why,
  );
  const [showLog, reload] = [vscode.l10n.t('Show log'), vscode.l10n.t('Reload window')];
  const chosen = await vscode.window.showErrorMessage(message, showLog, reload);
  if (chosen === showLog) log.show();
  if (chosen === reload) await vscode.commands.executeCommand('workbench.action.reloadWindow');
}
