import { expect, test } from 'vitest';
import { RULES } from '../../../server/core/findings/list.ts';
import { readExamples } from '../../support/examples.ts';
import { germanWords } from '../../support/german.ts';
import { englishLeft, pseudoWords, wordsOfTexts } from '../../support/pseudo.ts';
import { type Looked, lookIn } from './compare.ts';
import { FORMAT_WORDS, quotesIn, sheets } from './known.ts';

/*
 * Renaming, sorting and trying values do the same in English, in German and in a language that nobody speaks: every
 * text that they make is the same, byte for byte, and so is what is refused.
 */

const examples = readExamples();

/** Names that are tried for some of all that have one: some are good, some are taken, some are none. */
const NAMES = ['renamed-7', 'X', 'mains', 'a b', ''];

async function look(): Promise<Looked> {
  const { createFettle } = await import('../../../server/core/fettle.ts');
  const { mentionsIn } = await import('../../../server/core/names/mentions.ts');
  const { rangeOf } = await import('../../../server/core/syntax/tree.ts');
  const { describeWhatIf } = await import('../../../server/core/features/what-if.ts');
  const { printWhatIf } = await import('../../../server/core/features/what-if-table.ts');
  const { worldOf } = await import('../../support/world.ts');
  const facts: unknown[] = [];
  const said = new Set<string>();

  for (const { files, machine } of examples) {
    const fettle = createFettle(worldOf(files));
    const text = files.get(machine) ?? '';
    const source = fettle.read(machine, text);
    const { sources } = fettle.workspace();
    const firsts = new Map(
      mentionsIn(source).map(({ kind, text: name, owner, at }) => [`${kind} ${owner} ${name}`, at]),
    );
    for (const at of [...firsts.values()].filter((_, index) => index % 12 === 0))
      for (const name of NAMES) {
        const renamed = fettle.rename(source, rangeOf(source.tree, at)?.from ?? 0, name, sources);
        if (renamed.kind === 'refused') said.add(renamed.why);
        facts.push([
          renamed.kind,
          renamed.kind === 'refused'
            ? ''
            : renamed.edits.map((edit) => [edit.source.file, rangeOf(edit.source.tree, edit.at), edit.text]),
        ]);
      }

    const analysis = fettle.analyse(machine, text);
    const parts = text.indexOf('\nparts:') + 3;
    for (const { title, kind, edits } of fettle.refactorings(analysis, parts, parts)) {
      said.add(title);
      facts.push([kind, edits.map(({ at, text: written }) => [at.from, at.to, written])]);
    }

    const tried = new Map(
      [...text.matchAll(/[\d.]+/g)].flatMap(({ index }) => {
        const found = fettle.tryableAt(analysis, index);
        return found ? [[found.path, found.now] as const] : [];
      }),
    );
    // Some values, thrice: with another figure, without its unit, and as a word.
    for (const [path, now] of [...tried].filter((_, index) => index % 40 === 0))
      for (const value of [now.replace(/\d/, '3'), '7', 'much']) {
        const result = fettle.whatIf(analysis, [{ path, value }]);
        if (result.kind === 'refused') {
          said.add(result.why);
          facts.push([path, value, 'refused']);
          continue;
        }
        for (const line of [...describeWhatIf(result), ...printWhatIf(result).split('\n')]) said.add(line);
        const finding = ({ code, at }: { code: string; at: { from: number } }) => [code, at.from];
        facts.push([
          path,
          value,
          result.after.tree.text,
          result.values.map(({ id, before, after }) => [id, before?.si, after?.si]),
          result.appeared.map(finding),
          result.gone.map(finding),
        ]);
      }
  }
  return { facts, said: [...said] };
}

const english = await lookIn(undefined, look);
const german = await lookIn(germanWords(), look);
const pseudo = await lookIn(pseudoWords(), look);

test('there is much to compare', () => {
  const facts = english.facts as unknown[][];
  expect(facts.filter(([kind]) => kind === 'renamed').length).toBeGreaterThan(20);
  expect(facts.filter(([kind]) => kind === 'refused').length).toBeGreaterThan(20);
  expect(facts.filter(([kind]) => kind === 'refactor.rewrite').length).toBeGreaterThan(1);
  expect(facts.filter(({ length }) => length === 6).length).toBeGreaterThan(10);
  expect(german.said).not.toEqual(english.said);
});

test('every text that is made, and everything that is refused, is the same', () => {
  expect(german.facts).toEqual(english.facts);
  expect(pseudo.facts).toEqual(english.facts);
});

test('no English is left', () => {
  const texts = [...sheets, ...examples.flatMap(({ files }) => [...files.values()])];
  const known = new Set([
    ...FORMAT_WORDS,
    ...wordsOfTexts([...texts, ...NAMES, 'much', ...RULES.map(({ code }) => code)]),
  ]);
  expect(englishLeft(pseudo.said, known, quotesIn(texts))).toEqual([]);
});
