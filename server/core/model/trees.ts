import { Version } from '../reuse/version.ts';
import { readTree, type Tree } from '../syntax/tree.ts';
import type { FileId } from '../world.ts';

/** Parsed texts by file; a text that did not change is not parsed again, one that did shares its unchanged blocks. */
export interface Trees {
  readonly read: (file: FileId, text: string) => Tree;
  /** The tree of a file as it was last read. */
  readonly get: (file: FileId) => Tree | undefined;
  /** Begins a version of a file, which takes over from the one before what still holds. */
  readonly nextVersion: (file: FileId) => Version;
  readonly forget: (file: FileId) => void;
}

/**
 * An empty store of parsed texts.
 * @param areEdited whether texts have versions that follow one another; false where each is analysed once
 */
export function createTrees(areEdited = true): Trees {
  const kept = new Map<FileId, Tree>();
  const versions = new Map<FileId, Version>();
  return {
    read: (file, text) => {
      const previous = kept.get(file);
      if (previous?.text === text) return previous;
      const tree = readTree(text, previous);
      kept.set(file, tree);
      return tree;
    },
    get: (file) => kept.get(file),
    nextVersion: (file) => {
      const version = new Version(versions.get(file), areEdited);
      if (areEdited) versions.set(file, version);
      return version;
    },
    forget: (file) => {
      kept.delete(file);
      versions.delete(file);
    },
  };
}
