/** Names a text: a URI for the language server, a path for the command line. The core only compares and passes it on. */
export type FileId = string;

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
  /** The names of the sheets that ship, e.g. `generic/supply-24v`. */
  readonly library: readonly string[];
  /** The sheets found in the workspace, as paths that could be written in the given file. */
  readonly sheetsNear: (from: FileId) => readonly string[];
  /** How a file is called in front of a person. */
  readonly nameOf: (id: FileId) => string;
}
