import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Analysis, analyse } from '../../../server/core/analysis.ts';
import type { Changed } from '../../../server/core/changes/changed.ts';
import { type Changes, compareVersions, isEmpty } from '../../../server/core/changes/changes.ts';
import { describeChanges } from '../../../server/core/changes/describe.ts';
import { listFacts } from '../../../server/core/changes/flat.ts';
import { printMarkdown } from '../../../server/core/changes/markdown.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import { readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { worldOf } from '../../support/world.ts';

const FILE = 'router.machine.yaml';
const SHEET = 'sheets/four-axis-bench-panel.part.yaml';

function read(text: string, sheet = readPanelSheet()): Analysis {
  const files = new Map([
    [FILE, text],
    [SHEET, sheet],
  ]);
  return analyse(FILE, text, worldOf(files), createTrees());
}

/** Changes that people make, and slips. */
const EDITS: readonly (readonly [from: string, to: string])[] = [
  ['microsteps: 8', 'microsteps: 16'],
  ['output-voltage: 44.0 V', 'output-voltage: 46.0 V'],
  ['c8-1: 8000 ns', 'c8-1: 2000 ns'],
  ['c8-2: 4000 ns', 'c8-2: 4000'],
  ['lead: 10 mm', 'lead: 5 mm'],
  ['far-x:           { sheet: generic/roller-switch', 'far-x:           { sheet: generic/inductive-pnp-nc'],
  ['length: 0.5 m, label: 307', 'length: 5 m, label: 307'],
  ['  - { link: fuse-x.OUT -> drive-x.V+, ', '  # - { link: fuse-x.OUT -> drive-x.V+, '],
  ['panel.PX -> drive-x.PUL-', 'panel.PX -> drive-x.PLU-'],
  ['revision: 7', 'revision: 8'],
  ['  A:  ', '  B:  '],
  ['handwheel: {', 'handwheels: {'],
  ['at: gantry }', 'at: table }'],
  ['records:', 'recordings:'],
];
const original = readExample();
for (const [from] of EDITS) if (!original.includes(from)) throw new Error(`the example has no ${from}`);
const version = fc
  .subarray([...EDITS])
  .map((edits) => edits.reduce((text, [from, to]) => text.replace(from, to), original));

test('a version with itself gives nothing, comments and layout aside', () => {
  fc.assert(
    fc.property(version, (text) => {
      expect(
        isEmpty(compareVersions(read(text), read(text.replace('parts:', '# a comment\n\nparts:')))),
      ).toBe(true);
    }),
    { numRuns: 5 },
  );
});

/** A comparison as a set of words, with before and after by their names. */
function wordsOf(
  { parts, links, settings, values, steps, appeared, gone }: Changes,
  before = 'before',
  after = 'after',
) {
  const sides = <T>(list: readonly Changed<T>[], show: (thing: T) => unknown) =>
    list.map(
      (each) =>
        `${each.id} ${before} ${JSON.stringify(each.before && show(each.before))} ${after} ${JSON.stringify(each.after && show(each.after))}`,
    );
  const findings = (name: string, list: Changes['gone']) =>
    list.map(({ code, message }) => `${name} ${code} ${message}`);
  return new Set([
    ...sides(parts, (part) => part),
    ...sides(links, (link) => link),
    ...sides(settings, (setting) => setting),
    ...sides(values, ({ shown }) => shown),
    ...sides(steps, ({ act, expected }) => [act, expected]),
    ...values.flatMap(({ id, causes }) =>
      causes.map((cause) => `${id} ${cause.name} ${before} ${cause.before} ${after} ${cause.after}`),
    ),
    ...findings(after, appeared),
    ...findings(before, gone),
  ]);
}

/** The same with the names of the two sides in one order, so that sets can be compared. */
const inOrder = (words: ReadonlySet<string>) =>
  new Set([...words].map((line) => line.replace(/ after (.*) before (.*)$/s, ' before $2 after $1')));

test('the other way round before and after are exchanged, and nothing else', () => {
  fc.assert(
    fc.property(version, version, (one, other) => {
      const [a, b] = [read(one), read(other)];
      const there = wordsOf(compareVersions(a, b));
      const back = inOrder(wordsOf(compareVersions(b, a), 'after', 'before'));
      expect(back).toEqual(there);
    }),
    { numRuns: 6 },
  );
});

const swap = (...edits: readonly (readonly [string, string])[]) =>
  edits.reduce((text, [from, to]) => text.replace(from, to), original);
const after = (text: string) => compareVersions(read(original), read(text));
const linesOf = (changes: Changes, title: string) =>
  describeChanges(changes).find((section) => section.title === title)?.lines ?? [];

describe('a change of microsteps', () => {
  const changes = after(swap(['microsteps: 8', 'microsteps: 16']));

  test('names what is to be keyed in again', () => {
    expect(linesOf(changes, 'Settings to key in again').map(({ text }) => text)).toEqual([
      'drive-x.microsteps: 8 → 16',
      'panel.c1-1: 160.000 /mm → 320.000 /mm',
    ]);
  });

  test('gives values before and after, with the written figure that they follow from', () => {
    const scale = linesOf(changes, 'What follows').find(({ text }) =>
      text.startsWith('pulses per length of X'),
    );
    expect(scale).toEqual({
      kind: 'changed',
      text: 'pulses per length of X: 160 /mm → 320 /mm',
      detail: 'because of microsteps 8 → 16; 3200 × 1 / 10 mm = 320 /mm',
    });
  });

  test('names the steps to do again, and no others', () => {
    expect(changes.steps.map(({ id }) => id)).toEqual([
      'settings:drive-x',
      'settings:panel',
      'scale:X',
      'homing:X',
    ]);
  });

  test('brings the finding that the panel disagrees', () => {
    expect(changes.appeared.map(({ code }) => code)).toContain('setting/differs');
    expect(changes.gone).toEqual([]);
  });
});

test('a link is known by its ends, whichever is written first', () => {
  const turned = after(swap(['link: fuse-x.OUT -> drive-x.V+', 'link: drive-x.V+ -> fuse-x.OUT']));
  expect(turned.links).toEqual([]);
  const moved = after(swap(['link: fuse-x.OUT -> drive-x.V+', 'link: fuse-y1.OUT -> drive-x.V+']));
  expect(
    moved.links.map(({ id, before, after: now }) => [id, before !== undefined, now !== undefined]),
  ).toEqual([
    ['drive-x.V+ – fuse-x.OUT', true, false],
    ['drive-x.V+ – fuse-y1.OUT', false, true],
  ]);
  expect(moved.steps.map(({ id }) => id)).toContain('load:drive-x');
});

test('a sheet that changed under its old name is a change of the part', () => {
  const changes = compareVersions(
    read(original),
    read(original, readPanelSheet().replace('top-rate: 40 kHz', 'top-rate: 20 kHz')),
  );
  expect(linesOf(changes, 'Parts')).toEqual([
    { kind: 'changed', text: `panel: other facts in ${SHEET}`, detail: '' },
  ]);
  expect(changes.values.map(({ id }) => id)).toContain('axes.X.top-feed');
});

test('Markdown shows text of the user as text', () => {
  const text = printMarkdown(
    after(
      swap(['machine: Fairground router', 'machine: <b>*x*</b>'], ['at: gantry }', 'at: "<img src=x>" }']),
    ),
  );
  expect(text).not.toMatch(/(?<!\\)<(?:b>|img)/);
  expect(text).toContain('\\<b\\>\\*x\\*');
});

test('what came and what went is said as such, parts, wires and findings alike', () => {
  const unwired = swap([
    '  - { link: fuse-x.OUT -> drive-x.V+, ',
    '  # - { link: fuse-x.OUT -> drive-x.V+, ',
  ]);
  const spare = '  spare-fuse: { sheet: generic/fuse-holder-10a }\n';
  const kept = read(original.replace('parts:\n', `parts:\n${spare}`));
  const lost = read(unwired);
  const [there, back] = [compareVersions(kept, lost), compareVersions(lost, kept)];
  expect(linesOf(there, 'Parts')).toEqual([
    { kind: 'removed', text: 'spare-fuse: was generic/fuse-holder-10a', detail: '' },
  ]);
  expect(linesOf(back, 'Parts')).toEqual([
    { kind: 'added', text: 'spare-fuse: generic/fuse-holder-10a', detail: '' },
  ]);
  expect(linesOf(there, 'Links').map(({ kind }) => kind)).toEqual(['removed']);
  expect(linesOf(back, 'Links').map(({ kind }) => kind)).toEqual(['added']);
  const [gone] = linesOf(there, 'Links').map(({ text }) => text);
  expect(gone).toMatch(/^drive-x\.V\+ – fuse-x\.OUT: was \d/);
  // The fuse that feeds nothing any more is a finding that comes, and the spare one a finding that goes.
  const said = (changes: Changes) => linesOf(changes, 'Findings').map(({ kind, text }) => [kind, text]);
  expect(said(back)).toEqual(
    [...said(there)]
      .map(([kind, text]) => [kind === 'added' ? 'removed' : 'added', text])
      .toSorted(([a = ''], [b = '']) => (a < b ? -1 : a > b ? 1 : 0)),
  );
  expect(there.appeared.length).toBeGreaterThan(0);
  expect(there.gone.some(({ message }) => message.includes('spare-fuse'))).toBe(true);
});

test('a wire of which nothing is said is a change all the same', () => {
  const bare = after(
    `${swap(['wiring:\n', 'wiring:\n  - panel.PX -> drive-x.PUL+\n'])}`.replace('\n\n\n', '\n\n'),
  );
  expect(linesOf(bare, 'Links')).toEqual([
    { kind: 'added', text: 'drive-x.PUL+ – panel.PX: nothing said of the wire', detail: '' },
  ]);
});

describe('Markdown', () => {
  test('says that nothing follows', () => {
    expect(printMarkdown(after(original))).toBe(
      '# Fairground router: what follows from the change\n\nNothing follows from what differs.\n',
    );
  });

  test('names the revisions, also where one has none', () => {
    const text = printMarkdown(
      after(swap(['revision: 7', '# revision: 7'], ['microsteps: 8', 'microsteps: 16'])),
    );
    expect(text).toContain('\nRevision 7 → without a number\n');
    expect(printMarkdown(after(swap(['microsteps: 8', 'microsteps: 16'])))).not.toContain('Revision');
  });

  test('folds lists that are long', () => {
    const many = original.replaceAll(/length: (?=\d)/g, 'length: 1');
    const text = printMarkdown(after(many));
    expect(text).toMatch(/\n## Links\n\n<details><summary>\d+ lines<\/summary>\n\n- \*\*changed\*\*/);
    expect(printMarkdown(after(swap(['microsteps: 8', 'microsteps: 16'])))).toContain(
      '\n## Settings to key in again\n\n- **changed**',
    );
  });
});

describe('facts as lines', () => {
  const facts = listFacts(read(original));

  test('name parts, links, values and findings, one a line', () => {
    expect(facts).toContain('part far-x: generic/roller-switch, at gantry');
    expect(facts.filter((fact) => fact.startsWith('link '))).not.toEqual([]);
    expect(facts.some((fact) => /^axes\.X\.pulses-per-length = 160 \/mm$/.test(fact))).toBe(true);
    expect(facts.every((fact) => !fact.includes('\n'))).toBe(true);
  });

  test('differ where something follows, and nowhere else', () => {
    const moved = listFacts(read(swap(['parts:', '# a comment\n\nparts:'])));
    expect(moved).toEqual(facts);
    const finer = listFacts(read(swap(['microsteps: 8', 'microsteps: 16'])));
    const fresh = finer.filter((fact) => !facts.includes(fact));
    expect(fresh).toContain('axes.X.pulses-per-length = 320 /mm');
    expect(fresh.some((fact) => fact.startsWith('finding ') && fact.includes('setting/differs'))).toBe(true);
    expect(fresh.filter((fact) => fact.startsWith('part '))).toEqual([]);
  });

  test('of a part sheet are its findings', () => {
    const file = 'sheets/own.part.yaml';
    const text = 'part: Own relay\nterminals: { coil: [A1, A1] }\n';
    const sheet = analyse(file, text, worldOf(new Map([[file, text]])), createTrees());
    expect(listFacts(sheet)).not.toEqual([]);
    expect(listFacts(sheet).every((fact) => fact.startsWith('finding '))).toBe(true);
  });
});
