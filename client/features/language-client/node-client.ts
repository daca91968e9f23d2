import type * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions, TransportKind } from 'vscode-languageclient/node';

/** Makes the language client over the server that ships in dist/, as a process of its own. It is not started yet. */
export function createNodeClient(
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
): LanguageClient {
  const module = context.asAbsolutePath('dist/server.cjs');
  const transport = TransportKind.ipc;
  return new LanguageClient(
    'fettle',
    'Fettle',
    {
      run: { module, transport },
      debug: { module, transport, options: { execArgv: ['--nolazy', '--inspect=127.0.0.1:6009'] } },
    },
    options,
  );
}
