import { ownCopy } from '../core/syntax/own-copy.ts';
import {
  type FileId,
  type FileState,
  isProjectFile,
  isSheetFile,
  MOST_READ,
  type World,
} from '../core/world.ts';
import {
  baseNameOf,
  folderOf,
  isInside,
  listProjectFiles,
  projectFileIn,
  relativePath,
  resolvePath,
} from './keys.ts';
import type { Library } from './library.ts';

/** Reads a file if it lies in one of the folders. Never rejects: why it cannot be read is an answer. */
export type ReadFile = (file: FileId, folders: readonly FileId[]) => Promise<FileState>;

/** A file or a folder in a folder, by its name alone; links and devices are neither. */
export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder';
}

/** Lists a folder. Never rejects: one that cannot be read is empty. */
export type ListFolder = (folder: FileId) => Promise<readonly FolderEntry[]>;

/** Where files are: on a disk, or behind a client that has a place of its own for them. */
export interface Storage {
  readonly read: ReadFile;
  readonly list: ListFolder;
}

/** The texts that the shell has: those open in an editor come before those on disk. */
export interface Files {
  readonly world: World;
  /** Fetches files that an analysis asked for. True when any of them became known. */
  readonly fetch: (keys: readonly FileId[]) => Promise<boolean>;
  /** Forgets what is known of a file on disk; undefined forgets all. */
  readonly forget: (key?: FileId) => void;
  /** The machines and sheets that were found in the workspace. */
  readonly setDefinitions: (keys: readonly FileId[]) => void;
}

export interface FilesOptions {
  readonly library: Library;
  /** The folders that may be read, besides the library's. */
  readonly folders: () => readonly FileId[];
  /** The text of a file that is open in an editor. */
  readonly openText: (key: FileId) => string | undefined;
  /** The files that are open in an editor. */
  readonly openFiles: () => readonly FileId[];
  /** Reads a file of one of these folders. */
  readonly read: ReadFile;
}

/** Paths that were resolved are kept by folder, since every part names its sheet at every keystroke; emptied when there are too many. */
const MOST_RESOLVED = 5_000;

const outermost = (one: FileId, other: FileId) => (other.length < one.length ? other : one);

/** Makes a world of open texts and of files on disk. */
export function createFiles({ library, folders, openText, openFiles, read }: FilesOptions): Files {
  const known = new Map<FileId, FileState>();
  let found: readonly FileId[] = [];
  let sheets: readonly FileId[] = [];
  const resolved = new Map<string, FileId>();
  const resolve = (from: FileId, path: string): FileId => {
    const key = `${from.slice(0, from.lastIndexOf('/'))}\n${path}`;
    const before = resolved.get(key);
    if (before !== undefined) return before;
    const file = library.find(path) ?? resolvePath(from, path);
    if (resolved.size >= MOST_RESOLVED) resolved.clear();
    resolved.set(ownCopy(key), file);
    return file;
  };
  const above = new Map<FileId, readonly FileId[]>();
  const projectFiles = (from: FileId): readonly FileId[] => {
    const folder = folderOf(from);
    let files = above.get(folder);
    if (!files) {
      files = isInside(library.folder, from) ? [] : listProjectFiles(folder);
      above.set(folder, files);
    }
    return files;
  };
  const world: World = {
    resolve,
    file: (key) => {
      const text = openText(key);
      if (text !== undefined && text.length > MOST_READ)
        return { kind: 'too-large', bytes: text.length, most: MOST_READ };
      if (text !== undefined) return { kind: 'text', text };
      return isInside(library.folder, key) ? library.read(key) : known.get(key);
    },
    pathTo: relativePath,
    projectFiles,
    newProjectFile: (from) => {
      const around = folders().filter((folder) => isInside(folder, from));
      return projectFileIn(around.reduce(outermost, folderOf(from)));
    },
    library: library.names,
    sheetsNear: (from) => sheets.flatMap((sheet) => relativePath(from, sheet) ?? []),
    definitions: () => [...new Set([...found, ...openFiles()])],
    nameOf: baseNameOf,
  };
  /** What holds for a project may stand above a folder that is read; nothing else outside of these folders may. */
  const allowedFor = (key: FileId): readonly FileId[] => {
    const home = folderOf(key);
    const isAbove = isProjectFile(key) && folders().some((folder) => isInside(home, folder));
    return isAbove ? [home] : folders();
  };
  const fetchOne = async (key: FileId) => {
    known.set(key, await read(key, allowedFor(key)));
  };
  return {
    world,
    fetch: async (keys) => {
      const unknown = keys.filter((key) => world.file(key) === undefined);
      await Promise.all(unknown.map(fetchOne));
      return unknown.length > 0;
    },
    forget: (key) => {
      if (key === undefined) known.clear();
      else known.delete(key);
    },
    setDefinitions: (keys) => {
      found = [...new Set(keys)].sort();
      sheets = found.filter(isSheetFile);
    },
  };
}
