import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions } from 'vscode-languageclient/browser';

/** Workers of a browser, as far as they are used; the types of an extension host know none. */
declare const Worker: new (script: string) => ConstructorParameters<typeof LanguageClient>[3];

/** Makes the language client over the server as a worker, for editors in a browser. It is not started yet. */
export async function createWorkerClient(
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
): Promise<LanguageClient> {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js');
  return new LanguageClient('fettle', 'Fettle', options, new Worker(await addressOf(script)));
}

/**
 * Where the worker's script can be loaded from. An extension that is installed on a server has an address that only the
 * editor can read, so its script is handed over as a text.
 */
async function addressOf(script: vscode.Uri): Promise<string> {
  if (script.scheme !== 'vscode-remote') return script.toString(true);
  const bytes = await vscode.workspace.fs.readFile(script);
  return URL.createObjectURL(new Blob([bytes], { type: 'text/javascript' }));
}
