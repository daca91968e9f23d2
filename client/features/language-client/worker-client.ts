import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions } from 'vscode-languageclient/browser';
import {
  type FileAnswer,
  LIST_DEFINITIONS,
  type ListDefinitionsParams,
  READ_FILE,
  type ReadFileParams,
} from '../../../server/protocol/private.ts';

/** Workers of a browser, as far as they are used; the types of an extension host know none. */
declare const Worker: new (script: string) => ConstructorParameters<typeof LanguageClient>[3];

/** Larger than any sheet that a person writes; the same bound as on disk. */
const MOST_BYTES = 1_000_000;
const MOST_FILES = 500;

/** Makes the language client over the server as a worker, for editors in a browser. It is not started yet. */
export function createWorkerClient(
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
): LanguageClient {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js');
  const client = new LanguageClient('fettle', 'Fettle', options, new Worker(script.toString(true)));
  context.subscriptions.push(
    client.onRequest<FileAnswer, void>(READ_FILE, ({ uri }: ReadFileParams) =>
      readFile(vscode.Uri.parse(uri)),
    ),
    client.onRequest(LIST_DEFINITIONS, ({ folder }: ListDefinitionsParams) => listDefinitions(folder)),
  );
  return client;
}

/** A worker has no files, so it asks. What lies outside the folders that are open, and not beside an open text, is not read. */
async function readFile(uri: vscode.Uri): Promise<FileAnswer> {
  if (!vscode.workspace.getWorkspaceFolder(uri) && !isBesideOpen(uri)) return { kind: 'outside' };
  try {
    const { size } = await vscode.workspace.fs.stat(uri);
    if (size > MOST_BYTES) return { kind: 'too-large', bytes: size, most: MOST_BYTES };
    return { kind: 'text', text: new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)) };
  } catch (error) {
    const isMissing = error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
    return isMissing ? { kind: 'missing' } : { kind: 'unreadable', why: 'the editor could not read it' };
  }
}

function isBesideOpen(uri: vscode.Uri): boolean {
  return vscode.workspace.textDocuments.some(({ uri: open }) => {
    const folder = vscode.Uri.joinPath(open, '..').toString();
    return open.scheme === uri.scheme && uri.toString().startsWith(`${folder.replace(/\/$/, '')}/`);
  });
}

async function listDefinitions(folder: string): Promise<string[]> {
  const pattern = new vscode.RelativePattern(vscode.Uri.parse(folder), '**/*.{machine,part}.{yaml,yml}');
  const found = await vscode.workspace.findFiles(pattern, '**/{node_modules,dist,out}/**', MOST_FILES);
  return found.map((uri) => uri.toString());
}
