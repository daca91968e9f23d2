import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { rangeOf } from '../../../server/core/syntax/tree.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';

const PIECES = [
  '',
  '\0',
  '\ufeff',
  '{',
  '}',
  '[',
  ']',
  ':',
  '- ',
  '&a ',
  '*a',
  '"',
  "'",
  '|',
  '\n',
  '\r',
  '\t',
  '#',
  '<<: ',
  '->',
  '.',
  ',',
  '🛠',
  '\ud800',
  '__proto__',
];
const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const sheet = fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8');

/** A text with some scraps thrown in at random. */
function spoil(text: string, random: ReturnType<typeof randomFrom>): string {
  let spoilt = text;
  for (let times = 1 + random.below(12); times > 0; times--) {
    const at = random.below(spoilt.length);
    spoilt = spoilt.slice(0, at) + random.oneOf(PIECES) + spoilt.slice(at + random.below(5));
  }
  return spoilt;
}

test('whatever the text is, names are found where they stand and renaming changes nothing else', () => {
  const random = randomFrom(5);
  let renamings = 0;
  for (let round = 0; round < 25; round++) {
    const text = spoil(readExample(), random);
    const fettle = createFettle(
      worldOf(
        new Map([
          ['m.machine.yaml', text],
          [SHEET, random.below(3) === 0 ? spoil(sheet, random) : sheet],
        ]),
      ),
    );
    const source = fettle.read('m.machine.yaml', text);
    const sources = fettle.workspace().sources;
    const folds = fettle.folds(source);
    for (const { from, to } of folds) expect(from >= 0 && from < to && to <= text.length).toBe(true);
    for (let cursor = 0; cursor < 25; cursor++) {
      const offset = random.below(text.length + 1);
      for (const { at, text: name } of fettle.highlights(source, offset)) {
        const range = rangeOf(source.tree, at);
        expect(range && range.from >= 0 && range.to <= text.length, name).toBe(true);
      }
      const selections = fettle.selections(source, offset);
      for (const [index, inner] of selections.entries()) {
        const outer = selections[index + 1];
        expect(inner.from <= offset && offset <= inner.to).toBe(true);
        expect(!outer || (outer.from <= inner.from && outer.to >= inner.to)).toBe(true);
      }
      fettle.definition(source, offset);
      fettle.typeDefinition(source, offset);
      fettle.linkedPlaces(source, offset);
      const renamed = fettle.rename(source, offset, 'renamed', sources);
      if (renamed.kind === 'refused') {
        expect(renamed.why.length).toBeGreaterThan(20);
        continue;
      }
      renamings += 1;
      for (const { source: where, at } of renamed.edits) {
        const range = rangeOf(where.tree, at);
        expect(range && where.tree.text.slice(range.from, range.to)).toBe(renamed.name.text);
      }
    }
    fettle.workspaceSymbols('x', sources);
    fettle.sheetLinks(source);
    fettle.fixPaths(sources, (file) => `moved/${file}`);
  }
  expect(renamings).toBeGreaterThan(15);
});

test('a signal is followed in any text', () => {
  const random = randomFrom(6);
  for (let round = 0; round < 10; round++) {
    const text = spoil(readExample(), random);
    const fettle = createFettle(worldOf(new Map([[SHEET, sheet]])));
    const analysis = fettle.analyse('m.machine.yaml', text);
    for (let cursor = 0; cursor < 20; cursor++)
      for (const station of fettle.stations(analysis, random.below(text.length))) {
        fettle.signalFrom(analysis, station);
        fettle.signalInto(analysis, station);
      }
  }
});
