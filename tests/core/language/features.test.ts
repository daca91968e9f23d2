import { expect, test } from 'vitest';
import { readExamples } from '../../support/examples.ts';
import { englishLeft, wordsOfTexts } from '../../support/pseudo.ts';
import { inBoth, type Looked } from './compare.ts';
import { FORMAT_WORDS, quotesIn, sheets } from './known.ts';

/** What editors show of the examples, everywhere in their texts: its edits and places are the same in every language. */

const examples = readExamples();

/** Every place where a word begins, and behind it. */
function placesIn(text: string): number[] {
  return [...text.matchAll(/[\w.+-]+/g)].flatMap(({ index, 0: { length } }) => [index, index + length]);
}

/** Everything that the editor's features answer at the places of one text. */
async function lookAt(files: ReadonlyMap<string, string>, file: string): Promise<Looked> {
  const { createFettle } = await import('../../../server/core/fettle.ts');
  const { sayNotComputed } = await import('../../../server/core/features/not-computed.ts');
  const { worldOf } = await import('../../support/world.ts');
  const fettle = createFettle(worldOf(files));
  const text = files.get(file) ?? '';
  const analysis = fettle.analyse(file, text);
  const said = new Set<string>();
  const facts: unknown[] = [];
  const say = (...texts: (string | undefined)[]) => {
    for (const each of texts) if (each) said.add(each);
  };
  const edits = (fix: { edits: readonly { at: { from: number; to: number }; text: string }[] }) =>
    fix.edits.map(({ at, text: written }) => [at.from, at.to, written]);
  const places = placesIn(text);
  for (const [index, offset] of places.entries()) {
    const hover = fettle.hover(analysis, offset);
    say(hover?.markdown);
    // Much the same can be completed at many places, before words (even) and behind them (odd): a fifth of both will do.
    const completions = index % 5 === 0 ? fettle.completions(analysis, offset) : [];
    say(
      ...completions.flatMap(({ label, kind, detail, documentation }) => [
        ...(kind === 'snippet' ? [label, detail] : [detail]),
        kind === 'snippet' ? '' : documentation,
      ]),
    );
    facts.push([
      offset,
      hover?.at.from,
      hover?.at.to,
      completions.map(({ kind, insert, from, rank }) => [kind, insert, from, rank]),
    ]);
  }
  for (const offset of places.filter((_, index) => index % 6 === 0)) {
    const refactorings = fettle.refactorings(analysis, offset, offset);
    say(...refactorings.map(({ title }) => title));
    facts.push(refactorings.map((each) => [each.kind, edits(each)]));
    const followUps = fettle.followUps(analysis, offset, offset);
    say(...followUps.map(({ title }) => title));
    facts.push(followUps.map(edits));
  }
  for (const finding of fettle.findings(analysis)) {
    const silences = fettle.silences(analysis, finding);
    say(...silences.map(({ title }) => title));
    facts.push(silences.map(edits));
  }
  const hints = fettle.inlayHints(
    analysis,
    0,
    text.length,
    new Set(['scale', 'feed', 'margins', 'supply', 'levels', 'spindle', 'handwheel', 'settings', 'records']),
  );
  say(...hints.map(({ label }) => label));
  facts.push(hints.map(({ offset, kind, address }) => [offset, kind, address]));
  const lenses = fettle.lenses(analysis);
  say(...lenses.map(({ title }) => title));
  facts.push(lenses.map(({ kind, from, to, opens }) => [kind, from, to, opens]));
  for (const [address, value] of analysis.values.byAddress) {
    const { shown, formula, working, source, limit, rounding } = value;
    const explained = fettle.explain(analysis, address);
    say(...explained.lines);
    facts.push([
      address,
      value.si,
      value.word === undefined ? shown : '',
      limit,
      source === '',
      rounding === undefined,
    ]);
    if (formula === '' || working === '') throw new Error(address);
  }
  say(...fettle.notComputed(analysis).map(sayNotComputed));
  return { facts, said: [...said] };
}

const { english, pseudo } = await inBoth(async () => {
  const looked: Looked[] = [];
  for (const { machine, files } of examples)
    for (const file of files.keys())
      if (file === machine || files.size < 8) looked.push(await lookAt(files, file));
  return looked;
});

test('there is much to look at', () => {
  expect(pseudo.length).toBeGreaterThan(examples.length);
  expect(pseudo.flatMap(({ said }) => said).length).toBeGreaterThan(2000);
});

test('places, edits and values are the same', () => {
  for (const [index, { facts }] of english.entries()) expect(pseudo[index]?.facts).toEqual(facts);
});

test('no English is left', () => {
  const texts = examples.flatMap(({ files }) => [...files.values()]);
  const known = new Set([...FORMAT_WORDS, ...wordsOfTexts(texts)]);
  const quotes = quotesIn([...sheets, ...texts]);
  const said = pseudo.flatMap((each) => each.said);
  expect(englishLeft(said, known, quotes)).toEqual([]);
});
