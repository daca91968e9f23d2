import { type Analysis, analyse } from '../analysis.ts';
import { createTrees } from '../model/trees.ts';
import type { FileId } from '../world.ts';
import { type Changes, compareVersions } from './changes.ts';

/**
 * Compares an analysis with how it was when some files had other texts, its own among them. A file without a text of its
 * own then was empty; whatever is not named was as it is.
 */
export function compareWithTexts(analysis: Analysis, texts: ReadonlyMap<FileId, string>): Changes {
  const { file, world } = analysis;
  const then = {
    ...world,
    file: (id: FileId) => {
      const text = texts.get(id);
      return text === undefined ? world.file(id) : ({ kind: 'text', text } as const);
    },
  };
  return compareVersions(analyse(file, texts.get(file) ?? '', then, createTrees()), analysis);
}
