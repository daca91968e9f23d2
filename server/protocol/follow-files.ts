import { DidChangeConfigurationNotification, DidChangeWatchedFilesNotification } from 'vscode-languageserver';
import type { Words } from '../core/language/say.ts';
import { type FileId, isProjectFile, isSheetFile } from '../core/world.ts';
import type { Storage } from '../files/files.ts';
import { findDefinitions as findIn } from '../files/find-definitions.ts';
import { keyOf } from '../files/keys.ts';
import type { Library } from '../files/library.ts';
import { letRun } from './guard.ts';
import { checkAll } from './methods/diagnostics.ts';
import type { Session } from './session.ts';
import { settle } from './settle.ts';

/** What differs between Node and a browser worker. */
export interface Host {
  readonly library: Library;
  /** The disk, where there is one; other files are reached through the client. */
  readonly disk?: Storage;
  /** Where the page of a finding is, for its code. */
  readonly pageOf: (code: string) => string | undefined;
  /** The words of the language of a locale; undefined where there are none. */
  readonly readWords: (locale: string | undefined) => Words | undefined;
}

/** Looks through the workspace once the client is ready, and asks to be told of what changes in it. */
export async function finishStart(session: Session, storage: Storage, folders: Set<FileId>): Promise<void> {
  const { connection, client } = session;
  if (client.configuration)
    letRun(
      connection,
      'registration for settings',
      connection.client.register(DidChangeConfigurationNotification.type, { section: 'fettle' }),
    );
  if (client.watchesFiles) {
    letRun(
      connection,
      'registration for files',
      connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: [{ globPattern: '**/*.{machine,part}.{yaml,yml}' }, { globPattern: '**/.fettle.yaml' }],
      }),
    );
  }
  if (client.changesFolders) followFolders(session, storage, folders);
  await findDefinitions(session, storage, folders);
  await checkAll(session);
}

function followFolders(session: Session, storage: Storage, folders: Set<FileId>): void {
  session.connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
    for (const { uri } of added) folders.add(keyOf(uri));
    for (const { uri } of removed) folders.delete(keyOf(uri));
    session.files.forget();
    letRun(
      session.connection,
      'look for definitions',
      findDefinitions(session, storage, folders).then(() => checkAll(session)),
    );
  });
}

/** Lists the machines and sheets of all folders anew. */
export async function findDefinitions(
  session: Session,
  storage: Storage,
  folders: ReadonlySet<FileId>,
): Promise<void> {
  const lists = await Promise.all([...folders].map((folder) => findIn(folder, storage.list)));
  session.files.setDefinitions(lists.flat());
}

/** How often a sheet has changed, and the sessions in which a check of all is about to begin. */
const notes = new WeakMap<Session, number>();
const awaited = new WeakSet<Session>();

/** Machines that use a sheet, or belong to a project, are checked again when it changes in an editor. */
export function noteSheet(session: Session | undefined, uri: string): void {
  if (!session || !(isSheetFile(uri) || isProjectFile(uri))) return;
  const current = session;
  current.filesChanged();
  notes.set(current, (notes.get(current) ?? 0) + 1);
  if (awaited.has(current)) return;
  awaited.add(current);
  const settled = settle(() => notes.get(current));
  letRun(
    current.connection,
    'check of all',
    settled.then(() => {
      awaited.delete(current);
      return checkAll(current);
    }),
  );
}
