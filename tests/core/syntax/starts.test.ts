import { expect, it } from 'vitest';
import { readTree } from '../../../server/core/syntax/tree.ts';

const entry = (number: number): string => `  part-${number}: { sheet: generic/relay }`;
const textOf = (entries: readonly string[]): string => ['parts:', ...entries, ''].join('\n');

const MANY = Array.from({ length: 200 }, (_, number) => entry(number));

/** Where each block starts, as it was asked. */
const startsOf = ({ blocks, starts }: ReturnType<typeof readTree>) =>
  blocks.map((block) => starts.get(block));

it.each([
  ['an entry is put in', MANY.toSpliced(3, 0, entry(900))],
  [
    'very many are put in',
    MANY.toSpliced(3, 0, ...Array.from({ length: 90 }, (_, more) => entry(900 + more))),
  ],
  ['very many go', MANY.toSpliced(10, 90)],
  ['some are moved to the end', [...MANY.slice(50), ...MANY.slice(0, 50)]],
])('blocks are found where they stand when %s, and where they stood in the text before', (_, entries) => {
  const before = readTree(textOf(MANY));
  const places = startsOf(before);
  const after = readTree(textOf(entries), before);
  expect(startsOf(after)).toEqual(startsOf(readTree(textOf(entries))));
  // Somebody may still hold the version before.
  expect(startsOf(before)).toEqual(places);
  const gone = before.blocks.filter((block) => !after.blocks.includes(block));
  for (const block of gone) expect(after.starts.get(block)).toBeUndefined();
});
