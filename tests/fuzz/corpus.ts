import { RULES } from '../../server/core/findings/list.ts';
import { readExamples } from '../support/examples.ts';
import { readPageExamples } from '../support/page-examples.ts';

/** Texts to begin from: what is edited, and the files beside it. */
export interface Start {
  readonly file: string;
  readonly text: string;
  readonly others: Readonly<Record<string, string>>;
}

function startFrom(texts: ReadonlyMap<string, string>, file: string): Start {
  const others = Object.fromEntries([...texts].filter(([name]) => name !== file));
  return { file, text: texts.get(file) ?? '', others };
}

/** The small machines of the findings' pages: each touches something that the others do not. */
export const SMALL: readonly Start[] = RULES.flatMap((rule) =>
  readPageExamples(rule).map(({ texts }) => startFrom(texts, [...texts.keys()][0] ?? '')),
);

/** The examples, from each of their files. */
export const LARGE: readonly Start[] = readExamples().flatMap(({ files }) =>
  [...files.keys()].map((file) => startFrom(files, file)),
);

export const DONORS: readonly string[] = [...SMALL, ...LARGE].map(({ text }) => text);
