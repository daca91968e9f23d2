import { describe, expect, test } from 'vitest';
import type { Edit, Problem } from '../../../server/core/problem.ts';
import { checkShape } from '../../../server/core/shape/check.ts';
import type { Shape } from '../../../server/core/shape/shape.ts';
import { machineShape, sheetShape } from '../../../server/core/shape/shapes.ts';
import { rangeOf, readTree, type Tree } from '../../../server/core/syntax/tree.ts';

const MACHINE = 'machine: Slate saw\n';
const PART = 'part: Panel\nclass: controller\n';
const circuit = (text: string) => `${PART}circuits:\n  a: { ${text} }\n`;

interface Case {
  readonly name: string;
  readonly text: string;
  readonly shape?: Shape;
  readonly code: string;
  /** The text that is marked. */
  readonly at: string;
  readonly data?: Problem['data'];
  /** What the first fix makes of the text; the result must have no problem left unless `half` says so. */
  readonly fixed?: string;
  /** The fix leaves something to be filled in. */
  readonly half?: boolean;
  readonly safe?: boolean;
}

const CASES: readonly Case[] = [
  {
    name: 'a key that is nearly right is renamed',
    text: `${MACHINE}axes: { X: { fed: 900 mm/min } }\n`,
    code: 'shape/unknown-key',
    at: 'fed',
    data: { key: 'fed', owner: 'X', nearest: 'feed' },
    fixed: `${MACHINE}axes: { X: { feed: 900 mm/min } }\n`,
    safe: false,
  },
  {
    name: 'a key in another spelling habit is renamed safely',
    text: `${MACHINE}spindle: { Top_Speed: 900 rpm }\n`,
    code: 'shape/unknown-key',
    at: 'Top_Speed',
    data: { nearest: 'top-speed' },
    fixed: `${MACHINE}spindle: { top-speed: 900 rpm }\n`,
    safe: true,
  },
  {
    name: 'a key of another place is told where it belongs, not renamed',
    text: `${MACHINE}axes: { Z: { screw: { travel: 640 mm } } }\n`,
    code: 'shape/unknown-key',
    at: 'travel',
    data: { key: 'travel', owner: 'screw', belongs: 'axes.Z' },
  },
  {
    name: 'a section of the other kind of file belongs to a part here',
    text: `${MACHINE}circuits: {}\n`,
    code: 'shape/unknown-key',
    at: 'circuits',
    data: { belongs: 'an entry of parts' },
  },
  {
    name: 'a figure of other circuits is told which',
    text: circuit('power-in: [A, B], most: 5 mA'),
    shape: sheetShape,
    code: 'shape/unknown-key',
    at: 'most',
    data: { belongs: 'a circuit of the kind opto-in' },
  },
  {
    name: 'a kind that is misspelt is one problem',
    text: circuit('sink-uot: [A, B], drop: 0.3 V'),
    shape: sheetShape,
    code: 'shape/unknown-key',
    at: 'sink-uot',
    data: { nearest: 'sink-out' },
    fixed: circuit('sink-out: [A, B], drop: 0.3 V'),
  },
  {
    name: 'a circuit without a kind is marked at its name',
    text: circuit('drop: 0.3 V'),
    shape: sheetShape,
    code: 'shape/missing-kind',
    at: 'a',
    data: { owner: 'a', of: 'circuit' },
  },
  {
    name: 'a circuit of two kinds is marked at the second',
    text: circuit('sink-out: [A, B], contact: [A, B]'),
    shape: sheetShape,
    code: 'shape/two-kinds',
    at: 'contact',
    data: { first: 'sink-out', second: 'contact' },
  },
  {
    name: 'a missing key is added on a line of its own',
    text: 'revision: 4\n',
    code: 'shape/missing-key',
    at: 'revision',
    data: { owner: '', missing: ['machine'] },
    fixed: 'machine: \nrevision: 4\n',
    half: true,
  },
  {
    name: 'all missing keys are one problem, and are added inside the braces',
    text: `${MACHINE}records: [{ date: 2026-03-02, seen: 1 mm }]\n`,
    code: 'shape/missing-key',
    at: 'date',
    data: { missing: ['axis', 'asked'] },
    fixed: `${MACHINE}records: [{ axis: , asked: , date: 2026-03-02, seen: 1 mm }]\n`,
    half: true,
  },
  {
    name: 'a missing key of an item keeps the dash',
    text: `${MACHINE}wiring:\n  - cable: K1\n    length: 2 m\n`,
    code: 'shape/missing-key',
    at: 'cable',
    data: { missing: ['links'] },
    fixed: `${MACHINE}wiring:\n  - links: \n    cable: K1\n    length: 2 m\n`,
    half: true,
  },
  {
    name: 'a needed key that is misspelt is not missing as well',
    text: `${MACHINE}wiring:\n  - { lnk: a.1 -> b.1, wire: 20 AWG }\n`,
    code: 'shape/unknown-key',
    at: 'lnk',
    fixed: `${MACHINE}wiring:\n  - { link: a.1 -> b.1, wire: 20 AWG }\n`,
  },
  {
    name: 'a value that is still to be typed is one problem at its key',
    text: `${MACHINE}axes:\n  X:\n    travel:\n`,
    code: 'shape/missing-value',
    at: 'travel',
    data: { key: 'travel', expected: 'a length (mm, m, in, um)' },
  },
  {
    name: 'a section that is still to be typed is only an empty section',
    text: `${MACHINE}axes:\n`,
    code: 'shape/empty-section',
    at: 'axes',
  },
  {
    name: 'a group where a value is wanted is marked at its key',
    text: `${MACHINE}axes: { X: { travel: { most: 3 mm } } }\n`,
    code: 'shape/wrong-type',
    at: 'travel',
    data: { key: 'travel', expected: 'a length (mm, m, in, um)', found: 'a group of keys' },
  },
  {
    name: 'a value where a list is wanted is put into brackets',
    text: `${MACHINE}wiring: a.1 -> b.1\n`,
    code: 'shape/wrong-type',
    at: 'a.1 -> b.1',
    fixed: `${MACHINE}wiring: [a.1 -> b.1]\n`,
  },
  {
    name: 'a list of the wrong length says what goes where',
    text: circuit('opto-in: [A]'),
    shape: sheetShape,
    code: 'shape/wrong-type',
    at: 'opto-in',
    data: { key: 'opto-in', expected: 'a list of 2: [anode, cathode]', found: 'a list of one' },
  },
  {
    name: 'a word that is not among the choices is replaced by the nearest',
    text: circuit('sink-out: [A, B], does: puls X'),
    shape: sheetShape,
    code: 'shape/not-a-choice',
    at: 'puls X',
    data: { key: 'does', nearest: 'pulse X' },
    fixed: circuit('sink-out: [A, B], does: pulse X'),
  },
  {
    name: 'a truth value for yes is replaced safely',
    text: circuit('coil: [A, B], clamp: true'),
    shape: sheetShape,
    code: 'shape/not-a-choice',
    at: 'true',
    fixed: circuit('coil: [A, B], clamp: yes'),
    safe: true,
  },
  {
    name: 'a bare number is asked for its unit',
    text: `${MACHINE}axes: { X: { travel: 500 } }\n`,
    code: 'unit/missing',
    at: '500',
    data: { key: 'travel' },
    fixed: `${MACHINE}axes: { X: { travel: 500 mm } }\n`,
  },
  {
    name: 'a lead of 500 ms is implausible',
    text: circuit('opto-in: [A, B], lead: 500 ms'),
    shape: sheetShape,
    code: 'unit/implausible',
    at: '500 ms',
    data: { key: 'lead' },
    fixed: circuit('opto-in: [A, B], lead: 500 us'),
  },
  {
    name: 'the unit of a quoted value is mended inside the quotes',
    text: `${MACHINE}axes: { X: { travel: "640 MM" } }\n`,
    code: 'unit/prefix-case',
    at: 'MM',
    fixed: `${MACHINE}axes: { X: { travel: "640 mm" } }\n`,
    safe: true,
  },
  {
    name: 'a number of a list of motors is a name like any other, but a group is not',
    text: `${MACHINE}axes: { X: { motor: [1, { a: b }] } }\n`,
    code: 'shape/wrong-type',
    at: 'a',
    data: { key: 'motor', expected: 'the name of a part' },
  },
  {
    name: 'a name with a blank cannot stand in a link',
    text: `${MACHINE}parts:\n  left motor: { sheet: generic/x }\n`,
    code: 'shape/wrong-type',
    at: 'left motor',
  },
];

describe('one mistake gives one problem', () => {
  test.for(CASES)('$name', ({ text, shape = machineShape, code, at, data, fixed, half, safe }) => {
    const tree = readTree(text);
    const problems = checkShape(tree.root, shape);
    expect(problems.map((problem) => [problem.code, marked(text, problem)])).toEqual([[code, at]]);
    const [problem] = problems;
    if (data) expect(problem?.data).toMatchObject(data);
    const [fix] = problem?.fixes ?? [];
    expect(fix ? applyEdits(text, fix.edits) : undefined).toBe(fixed);
    if (safe !== undefined) expect(fix?.safe).toBe(safe);
    if (fixed === undefined || half) return;
    expect(checkShape(readTree(fixed).root, shape)).toEqual([]);
  });
});

test('a nearest key that is there already is not offered again', () => {
  const tree = readTree(`${MACHINE}axes: { X: { feed: 1 mm/s, fed: 2 mm/s } }\n`);
  const [problem] = checkShape(tree.root, machineShape);
  expect(problem?.code).toBe('shape/unknown-key');
  expect(problem?.data.nearest).toBeUndefined();
});

test('names of the language are names like any other', () => {
  const text = `${MACHINE}parts:\n  __proto__: { sheet: generic/x }\n  constructor: { toString: 1 }\naxes: { hasOwnProperty: 1 }\n`;
  const problems = checkShape(readTree(text).root, machineShape);
  expect(problems.map((problem) => marked(text, problem))).toEqual(['toString', 'hasOwnProperty']);
});

test('nothing is said of an empty text', () => {
  expect(checkShape(readTree('').root, machineShape)).toEqual([]);
});

test('a missing key takes the line ending of its file', () => {
  const text = 'revision: 4\r\n';
  const [problem] = checkShape(readTree(text).root, machineShape);
  expect(applyEdits(text, problem?.fixes?.[0]?.edits ?? [])).toBe('machine: \r\nrevision: 4\r\n');
});

function marked(text: string, problem: Problem): string {
  const range = rangeOf(readTreeOf(text, problem), problem.at);
  return range ? text.slice(range.from, range.to) : '';
}

/** Places are found in a tree of the same blocks. */
function readTreeOf(text: string, { at }: Problem): Pick<Tree, 'starts' | 'blocks' | 'moved'> {
  const from = text.indexOf(at.block.text);
  return { starts: new Map([[at.block, from]]), blocks: [at.block], moved: new Map() };
}

function applyEdits(text: string, edits: readonly Edit[]): string {
  const placed = edits.map((edit) => {
    const start = text.indexOf(edit.at.block.text);
    return { from: start + edit.at.from, to: start + edit.at.to, text: edit.text };
  });
  placed.sort((a, b) => b.from - a.from);
  return placed.reduce((done, edit) => done.slice(0, edit.from) + edit.text + done.slice(edit.to), text);
}
