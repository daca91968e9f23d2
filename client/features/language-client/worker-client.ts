import * as vscode from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type LanguageClientOptions,
  type MessageTransports,
} from 'vscode-languageclient/browser';

/** Workers of a browser, as far as they are used; the types of an extension host know none. */
interface Port {
  readonly terminate: () => void;
}
declare const Worker: new (script: string) => Port;

/** Makes the language client over the server as a worker, for editors in a browser. It is not started yet. */
export function createWorkerClient(
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
): LanguageClient {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js');
  let worker: Port | undefined;
  const end = () => worker?.terminate(); // a worker does not end by itself when its server is told to
  context.subscriptions.push({ dispose: end }, showLibrary(context));
  // Called at each start, so that a restart has a fresh worker.
  const startWorker = async (): Promise<MessageTransports> => {
    end();
    worker = new Worker(await addressOf(script));
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  return new LanguageClient('fettle', 'Fettle', startWorker, options);
}

/** The sheets that ship have no file that a browser could open, so they are shown from the extension. */
function showLibrary({ extensionUri }: vscode.ExtensionContext): vscode.Disposable {
  return vscode.workspace.registerTextDocumentContentProvider('fettle-library', {
    provideTextDocumentContent: async ({ path }) => {
      const sheet = vscode.Uri.joinPath(extensionUri, 'server', 'parts', path);
      return new TextDecoder().decode(await vscode.workspace.fs.readFile(sheet));
    },
  });
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
