import { readTree, type Tree } from '../syntax/tree.ts';
import type { FileId } from '../world.ts';

/** Parsed texts by file; a text that did not change is not parsed again, one that did shares its unchanged blocks. */
export interface Trees {
  readonly read: (file: FileId, text: string) => Tree;
  /** The tree of a file as it was last read. */
  readonly get: (file: FileId) => Tree | undefined;
  readonly forget: (file: FileId) => void;
}

/** An empty store of parsed texts. */
export function createTrees(): Trees {
  const kept = new Map<FileId, Tree>();
  return {
    read: (file, text) => {
      const previous = kept.get(file);
      if (previous?.text === text) return previous;
      const tree = readTree(text, previous);
      kept.set(file, tree);
      return tree;
    },
    get: (file) => kept.get(file),
    forget: (file) => {
      kept.delete(file);
    },
  };
}
