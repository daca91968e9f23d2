import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type FileAnswer,
  type FolderAnswer,
  LIST_FOLDER,
  type ListFolderParams,
  READ_FILE,
  type ReadFileParams,
} from '../../../server/protocol/private.ts';

/** Larger than any sheet that a person writes; the same bound as on disk. */
const MOST_BYTES = 1_000_000;

/** Reads files for the server that are on no disk which it reaches: all of them in a browser, else those of virtual folders. */
export function serveFiles(client: BaseLanguageClient): vscode.Disposable {
  return vscode.Disposable.from(
    client.onRequest<FileAnswer, void>(READ_FILE, ({ uri }: ReadFileParams) =>
      readFile(vscode.Uri.parse(uri)),
    ),
    client.onRequest<FolderAnswer, void>(LIST_FOLDER, ({ uri }: ListFolderParams) =>
      listFolder(vscode.Uri.parse(uri)),
    ),
  );
}

/** What lies outside the folders that are open, and not beside an open text, is not read. */
async function readFile(uri: vscode.Uri): Promise<FileAnswer> {
  if (!vscode.workspace.getWorkspaceFolder(uri) && !isBesideOpen(uri)) return { kind: 'outside' };
  try {
    const { size } = await vscode.workspace.fs.stat(uri);
    if (size > MOST_BYTES) return { kind: 'too-large', bytes: size, most: MOST_BYTES };
    return { kind: 'text', text: new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)) };
  } catch (error) {
    const isMissing = error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
    return isMissing
      ? { kind: 'missing' }
      : { kind: 'unreadable', why: vscode.l10n.t('the editor could not read it') };
  }
}

function isBesideOpen(uri: vscode.Uri): boolean {
  return vscode.workspace.textDocuments.some(({ uri: open }) => {
    const folder = vscode.Uri.joinPath(open, '..').toString();
    return open.scheme === uri.scheme && uri.toString().startsWith(`${folder.replace(/\/$/, '')}/`);
  });
}

/** Links are left out, as on disk: they could lead anywhere. */
async function listFolder(uri: vscode.Uri): Promise<FolderAnswer> {
  if (!vscode.workspace.getWorkspaceFolder(uri)) return [];
  try {
    const entries = await vscode.workspace.fs.readDirectory(uri);
    return entries.flatMap(([name, type]): FolderAnswer => {
      if (type === vscode.FileType.Directory) return [{ name, kind: 'folder' }];
      return type === vscode.FileType.File ? [{ name, kind: 'file' }] : [];
    });
  } catch {
    return [];
  }
}
