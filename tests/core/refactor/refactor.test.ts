import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../../server/core/analysis.ts';
import { findAll } from '../../../server/core/findings/find.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import { listRefactorings } from '../../../server/core/refactor/list.ts';
import type { Refactoring } from '../../../server/core/refactor/refactoring.ts';
import { rangeOf } from '../../../server/core/syntax/tree.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { analyseTexts, applyFix, VARIANTS } from '../../support/marked.ts';
import { worldOf } from '../../support/world.ts';

/** What is offered at `$`, or for what stands between two of them. */
function offered(marked: string, files: Readonly<Record<string, string>> = {}) {
  const [from, to = from] = [marked.indexOf('$'), marked.lastIndexOf('$') - 1].map((at) => Math.max(at, 0));
  const text = marked.replaceAll('$', '');
  const { analysis } = analyseTexts(new Map([['x.machine.yaml', text], ...Object.entries(files)]));
  const single = marked.split('$').length === 2;
  const found = listRefactorings(analysis, from ?? 0, single ? (from ?? 0) : (to ?? 0));
  const after = (title: string | RegExp) => {
    const refactoring = found.find((each) =>
      typeof title === 'string' ? each.title === title : title.test(each.title),
    );
    return refactoring && { ...refactoring, text: applyFix(analysis, { ...refactoring, safe: false }) };
  };
  return { titles: found.map(({ title }) => title), after };
}

describe.each([...VARIANTS])('with %s', (_, vary) => {
  test.each([
    [
      'splits a link to several ends',
      /^Split/,
      'wiring:\n  - a.1 -> $b.1, b.2  BN   # both\n  - a.2 -> b.3\n',
      'wiring:\n  - a.1 -> b.1  BN  # both\n  - a.1 -> b.2  BN\n  - a.2 -> b.3\n',
    ],
    [
      'moves selected links into a cable',
      /into a cable/,
      'wiring:\n  - $a.1 -> b.1  BN\n  # the way back\n  - { link: a.2 ->$ b.2, label: 7 }\n  - { cable: K1, links: [a.3 -> b.3] }\n',
      'wiring:\n  - cable: K2\n    links:\n      - a.1 -> b.1  BN\n      # the way back\n      - { link: a.2 -> b.2, label: 7 }\n  - { cable: K1, links: [a.3 -> b.3] }\n',
    ],
    [
      'converts a quantity',
      'Convert to 25.4 mm',
      'axes:\n  X: { travel: $1 in } # one\n',
      'axes:\n  X: { travel: 25.4 mm } # one\n',
    ],
    [
      'sorts parts in their groups, with their comments',
      /^Sort/,
      '$parts:\n  # group\n  b: { sheet: x }\n  # of a\n  a: { sheet: y } # behind\n  a-10: { sheet: z }\n  a-2:\n    sheet: z\n\n  # second\n  d: { sheet: x }\n  c: { sheet: x }\n',
      'parts:\n  # group\n  # of a\n  a: { sheet: y } # behind\n  a-2:\n    sheet: z\n  a-10: { sheet: z }\n  b: { sheet: x }\n\n  # second\n  c: { sheet: x }\n  d: { sheet: x }\n',
    ],
  ])('%s', (_name, title, before, after) => {
    expect(offered(vary(before)).after(title)?.text).toBe(vary(after));
  });

  test('extracts facts to a sheet, and inlines them again', () => {
    const before = vary(
      'parts:\n  lamp:\n    class: load # a bulb\n    at: desk\n    # two pins\n    terminals:\n      pins: [1, 2]\n    circuits: { lamp: { coil: [1, 2], voltage: 24 V } }\n  other: { sheet: generic/supply-24v }\n',
    );
    const extracted = offered(before.replace('lamp:', '$lamp:')).after(/^Extract/);
    expect(extracted?.text).toBe(
      vary(
        'parts:\n  lamp:\n    sheet: sheets/lamp.part.yaml\n    at: desk\n    # two pins\n  other: { sheet: generic/supply-24v }\n',
      ),
    );
    const sheet = extracted?.newFiles?.[0];
    expect(sheet?.file).toBe('sheets/lamp.part.yaml');
    expect(sheet?.text.replaceAll('\r', '')).toBe(
      'part: lamp\nclass: load # a bulb\nterminals:\n  pins: [1, 2]\ncircuits: { lamp: { coil: [1, 2], voltage: 24 V } }\n',
    );
    const inlined = offered(extracted?.text.replace('lamp:', '$lamp:') ?? '', {
      'sheets/lamp.part.yaml': sheet?.text ?? '',
    });
    expect(inlined.after(/^Inline/)?.text).toBe(
      vary(
        'parts:\n  lamp:\n    part: lamp\n    class: load # a bulb\n    terminals:\n      pins: [1, 2]\n    circuits: { lamp: { coil: [1, 2], voltage: 24 V } }\n    at: desk\n    # two pins\n  other: { sheet: generic/supply-24v }\n',
      ),
    );
  });

  test('inlines a sheet into a part on one line', () => {
    const sheet = vary('# bulb\npart: Lamp\nclass: load\n');
    const { after } = offered(vary('parts:\n  $lamp: { sheet: l.part.yaml, at: desk } # here\n'), {
      'l.part.yaml': sheet,
    });
    expect(after(/^Inline/)?.text).toBe(
      vary('parts:\n  lamp: # here\n    at: desk\n    # bulb\n    part: Lamp\n    class: load\n'),
    );
  });
});

test.each([
  ['a link to one end is not split', 'wiring:\n  - a.1 -> $b.1\n'],
  ['one link makes no cable', 'wiring:\n  - $a.1 ->$ b.1\n'],
  ['a cable does not go into a cable', 'wiring:\n  - $a.1 -> b.1\n  - { cable: K1, links: [a.1$ -> b.2] }\n'],
  ['sorted parts are not sorted', '$parts:\n  a: { sheet: x }\n  b: { sheet: x }\n'],
  ['a word has no unit', 'axes:\n  X: { screw: { ends: $fixed-free } }\n'],
])('%s', (_, text) => {
  expect(offered(text).titles).toEqual([]);
});

const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const files = new Map([[SHEET, fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8')]]);
const trees = createTrees();
const read = (text: string) => analyse('gantry-router.machine.yaml', text, worldOf(files), trees);

test('a contact that is open at rest is closed, and its input told so, together', () => {
  const open = readExample()
    .replace(/(near-x: +\{.*contact: )normally-closed/, '$1normally-open')
    .replace('c10-1: on-when-open,  ', 'c10-1: on-when-closed,');
  const analysis = read(open);
  expect(findAll(analysis).map(({ code }) => code)).toContain('safety/broken-wire-not-seen');
  const at = open.indexOf('near-x:');
  const closing = listRefactorings(analysis, at, at).filter(({ title }) => title.includes('normally-closed'));
  expect(closing).toHaveLength(1);
  const after = read(applyFix(analysis, { ...(closing[0] as Refactoring), safe: false }));
  expect(findAll(after).map(({ code }) => code)).toEqual(['safety/emergency-stop-caution']);
});

test('whatever is offered anywhere in the example keeps the text right, and its comments', () => {
  const text = readExample();
  const analysis = read(text);
  const seen = new Set<string>();
  let count = 0;
  for (let at = 0; at < text.length; at += 97) {
    for (const refactoring of listRefactorings(analysis, at, Math.min(text.length, at + (at % 2) * 260))) {
      const { title, edits, newFiles = [] } = refactoring;
      const key = title + JSON.stringify(edits.map(({ at: { from, to }, text: put }) => [from, to, put]));
      if (seen.has(key)) continue;
      seen.add(key);
      count += 1;
      const ranges = edits.map((edit) => rangeOf(analysis.tree, edit.at));
      expect(ranges, title).not.toContain(undefined);
      const after = applyFix(analysis, { ...refactoring, safe: false });
      const changed = read(after);
      expect(
        changed.problems.map(({ code }) => code),
        title,
      ).toEqual([]);
      const comments = (all: string) =>
        [...all.matchAll(/(?:^|\s)(#.*)$/gm)].map(([, comment = '']) => comment.trim());
      const kept = comments(after + newFiles.map((file) => file.text).join(''));
      expect(
        comments(text).filter((comment) => !kept.includes(comment)),
        title,
      ).toEqual([]);
    }
  }
  expect(count).toBeGreaterThan(40);
}, 60_000);
