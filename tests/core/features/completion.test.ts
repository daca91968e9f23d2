import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../../server/core/analysis.ts';
import { complete } from '../../../server/core/features/completion.ts';
import { readSpot } from '../../../server/core/features/cursor-line.ts';
import { plainOf } from '../../../server/core/features/snippets.ts';
import { findAll } from '../../../server/core/findings/find.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import { locate, pathOf } from '../../../server/core/syntax/locate.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';
import { EXAMPLE_FOLDER } from '../../support/example.ts';
import { VARIANTS } from '../../support/marked.ts';
import { worldOf } from '../../support/world.ts';

const MACHINE = 'gantry-router.machine.yaml';
const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const TEXTS = new Map(
  [MACHINE, SHEET].map((file) => [file, fs.readFileSync(path.join(EXAMPLE_FOLDER, file), 'utf8')]),
);

/** Accepts every completion at some places, and expects the text to be as right as before and to say what was offered there. */
function acceptAll(file: string, text: string, step: number, cut: boolean): number {
  const trees = createTrees();
  let accepted = 0;
  for (let at = 0; at < text.length; at += step) {
    const end = /\r?\n|$/.exec(text.slice(at))?.index ?? 0;
    const typed = cut ? text.slice(0, at) + text.slice(at + end) : text;
    const analysis = analyse(file, typed, worldOf(TEXTS), trees);
    const wanted = readSpot(typed, at)?.cursor.path ?? [];
    const before = analysis.tree.problems.length;
    if (cut && before > 0) continue; // what is broken already has no place for anything
    for (const item of complete(analysis, at).filter((_, index) => index < 5 || index % 9 === 0)) {
      const after = typed.slice(0, item.from) + plainOf(item.insert) + typed.slice(item.to);
      const tree = readTree(after, analysis.tree);
      const start = item.from + (/[^ ]/.exec(item.insert)?.index ?? 0);
      const found = pathOf(locate(tree, start + 1).steps).map((step_) =>
        typeof step_ === 'number' ? '-' : step_,
      );
      const where = `${JSON.stringify(typed.slice(Math.max(0, at - 30), at))}|${JSON.stringify(typed.slice(at, at + 20))} + ${item.label}`;
      expect(tree.problems.length, where).toBeLessThanOrEqual(before);
      expect(found.slice(0, wanted.length).join('.'), where).toBe(wanted.join('.'));
      accepted += 1;
    }
  }
  return accepted;
}

describe.each([...VARIANTS].filter(([name]) => name === 'LF' || name === 'BOM and CRLF'))(
  'with %s',
  (_, vary) => {
    test.each([
      ['while a line of the machine is typed', MACHINE, 597, true],
      ['anywhere in the machine', MACHINE, 703, false],
      ['while a line of a sheet is typed', SHEET, 97, true],
      ['anywhere in a sheet', SHEET, 231, false],
    ])(
      'whatever is accepted %s stands where it was offered',
      (_name, file, step, cut) => {
        expect(acceptAll(file, vary(TEXTS.get(file) ?? ''), step, cut)).toBeGreaterThan(3);
      },
      60_000,
    );
  },
);

function completeAt(marked: string, file = 'x.machine.yaml') {
  const at = marked.indexOf('|');
  const text = marked.replace('|', '');
  const items = complete(analyse(file, text, worldOf(TEXTS), createTrees()), at);
  const accept = (label: string) => {
    const item = items.find((each) => each.label === label);
    return item && text.slice(0, item.from) + plainOf(item.insert) + text.slice(item.to);
  };
  return { labels: items.map(({ label }) => label), items, accept };
}

test('a word that the cursor stands in is replaced whole', () => {
  expect(completeAt('axes:\n  X: { tr|avl: 3 mm }\n').accept('travel')).toBe(
    'axes:\n  X: { travel: 3 mm }\n',
  );
});

test('a key that is there in another line of the braces is not offered again', () => {
  expect(
    completeAt('axes:\n  X: {\n    travel: 3 mm, # x\n    |\n    drive: a,\n  }\n').labels,
  ).not.toContain('drive');
});

test('a line that is a blank off is written where its neighbours stand', () => {
  expect(completeAt('axes:\n  X:\n    travel: 3 mm\n   |\n').accept('Y')).toBe(
    'axes:\n  X:\n    travel: 3 mm\n  Y:\n',
  );
});

test.each([
  ['in a comment', 'axes: # th|\n'],
  [
    'where the lines below would be taken from their owner',
    'parts:\n  a: { sheet: x }\n|\n  b: { sheet: x }\n',
  ],
  ['in the blanks before something', 'parts:\n | b: { sheet: x }\n'],
])('nothing is offered %s', (_, text) => {
  expect(completeAt(text).labels).toEqual([]);
});

test.each([
  ['x.machine.yaml', '|', 'new machine'],
  ['x.part.yaml', '|', 'new part sheet'],
  ['.fettle.yaml', '|', 'new project'],
  ['x.machine.yaml', 'machine: x\naxes:\n  |\n', 'X with a screw'],
  ['x.machine.yaml', 'machine: x\naxes:\n  |\n', 'A with a worm'],
  ['x.part.yaml', 'part: x\nclass: supply\nterminals: { power: [V+, V-] }\ncircuits:\n  |\n', 'power input'],
  ['x.machine.yaml', 'machine: x\nparts:\n  |\n', 'part with a sheet'],
])('%s: the snippet %#, %s, reads without errors', (file, marked, label) => {
  const text = completeAt(marked, file).accept(label) ?? '';
  const findings = findAll(analyse(file, text, worldOf(TEXTS), createTrees()));
  // An axis names a drive and a motor that somebody still has to write down.
  expect(
    findings
      .filter(({ severity, code }) => severity === 'error' && code !== 'name/unknown-part')
      .map(({ message }) => message),
  ).toEqual([]);
});

test('an axis is offered with the drive and motor that no axis has yet', () => {
  const text =
    'parts:\n  d1: { sheet: generic/microstep-drive-50v }\n  d2: { sheet: generic/microstep-drive-50v }\naxes:\n  X: { drive: d1 }\n  |\n';
  expect(completeAt(text).accept('Y with a screw')).toContain('drive: d2');
});

test('a terminal says what it is for, and a return that many share its group', () => {
  const { items } = completeAt('parts:\n  p: { sheet: generic/controller-3-axis }\nwiring:\n  - p.|\n');
  const detailOf = (name: string) => items.find(({ label }) => label === name)?.detail;
  expect(detailOf('I3')).toBe('home X');
  expect(detailOf('XP-')).toBe('pulse X');
  expect(detailOf('S0')).toBe('sensors');
});

test('a terminal is documented by what is inside the part', () => {
  const { items } = completeAt('parts:\n  d: { sheet: generic/microstep-drive-50v }\nwiring:\n  - d.|\n');
  expect(items.find(({ label }) => label === 'PUL+')?.documentation).toMatch(/opto-in/);
});
