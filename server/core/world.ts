/** Names a text: a URI for the language server, a path for the command line. The core only compares and passes it on. */
export type FileId = string;

/**
 * The longest text that is read, in bytes of a file or letters of an open one: far more than a person writes. What is
 * longer is not read at all, so that no text keeps an editor waiting.
 */
export const MOST_READ = 1_000_000;

/** What is known about a file that the core asked for. */
export type FileState =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'outside' }
  | { readonly kind: 'unreadable'; readonly why: string }
  | { readonly kind: 'too-large'; readonly bytes: number; readonly most: number };

/**
 * Everything that the core knows of its surroundings. It never waits: a file that has not been fetched yet is
 * `undefined`, the analysis lists it among its wants, and the shell analyses again once it has fetched it.
 */
export interface World {
  /** The file that a path means in a given file; `generic/...` means the library that ships. */
  readonly resolve: (from: FileId, path: string) => FileId;
  readonly file: (id: FileId) => FileState | undefined;
  /** How to write a file's path in another file; undefined where there is no way from one to the other. */
  readonly pathTo: (from: FileId, to: FileId) => string | undefined;
  /** Where a `.fettle.yaml` may stand that holds for a file: in its folder and those above, the nearest first. */
  readonly projectFiles: (from: FileId) => readonly FileId[];
  /** Where a `.fettle.yaml` is made that shall hold for a file's project: at the top of the folder that is open, or beside the file. */
  readonly newProjectFile: (from: FileId) => FileId;
  /** The names of the sheets that ship, e.g. `generic/supply-24v`. */
  readonly library: readonly string[];
  /** The sheets found in the workspace, as paths that could be written in the given file. */
  readonly sheetsNear: (from: FileId) => readonly string[];
  /** The machines and sheets of the workspace, and those that are open. Their texts may have to be fetched. */
  readonly definitions: () => readonly FileId[];
  /** How a file is called in front of a person. */
  readonly nameOf: (id: FileId) => string;
}

/** True for `.fettle.yaml`, which holds for a project. */
export function isProjectFile(name: string): boolean {
  return /(?:^|\/)\.fettle\.ya?ml$/i.test(name);
}

/** True for `NAME.part.yaml`; what is neither that nor a project's file is taken for a machine. */
export function isSheetFile(name: string): boolean {
  return /\.part\.ya?ml$/i.test(name);
}
