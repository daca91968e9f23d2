import { type Analysis, analyse } from '../analysis.ts';
import { createTrees } from '../model/trees.ts';
import type { FileId } from '../world.ts';
import { type Changes, compareVersions } from './changes.ts';

/** A comparison, with the files that have to be fetched before it is complete. */
export interface ComparedWithTexts {
  readonly changes: Changes;
  readonly wants: readonly FileId[];
}

/**
 * Compares an analysis with how it was when some files had other texts, its own among them. A file without a text of its
 * own then was empty; whatever is not named was as it is.
 */
export function compareWithTexts(analysis: Analysis, texts: ReadonlyMap<FileId, string>): ComparedWithTexts {
  const { file, world } = analysis;
  const then = {
    ...world,
    file: (id: FileId) => {
      const text = texts.get(id);
      return text === undefined ? world.file(id) : ({ kind: 'text', text } as const);
    },
  };
  const before = analyse(file, texts.get(file) ?? '', then, createTrees(false));
  return { changes: compareVersions(before, analysis), wants: before.wants };
}
