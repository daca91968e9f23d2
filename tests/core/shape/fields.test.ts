import { describe, expect, test } from 'vitest';
import type { Leaf } from '../../../schemas/index.ts';
import { shapeAlong } from '../../../server/core/shape/at.ts';
import { fieldsOf } from '../../../server/core/shape/fields.ts';
import { readLeaf } from '../../../server/core/shape/leaf.ts';
import { cableShape, machineShape, sheetShape } from '../../../server/core/shape/shapes.ts';
import type { Scalar } from '../../../server/core/syntax/node.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';

const MACHINE = `machine: Slate saw
mains: 3 x 400 V 50 Hz
axes:
  X: { travel: 640 mm, gearing: 3:1, friction: 0.02, screw: { lead: 5 mm, starts: 2 }, feed: 12 V }
wiring:
  - cable: K1
    wire: 4 x 0.75 mm2 screened
    links: [a.1 -> b.1]
records:
  - { date: 2026-03-02, axis: X, asked: 500 mm, seen: 499.62 mm }
`;

const SHEET = `part: Panel
class: controller
circuits:
  in: { power-in: [A, B], voltage: 24 V, current: 0.5 A }
  coil: { coil: [C, D], clamp: no }
`;

describe('fields', () => {
  const machine = fieldsOf(readTree(MACHINE).root, machineShape);
  const sheet = fieldsOf(readTree(SHEET).root, sheetShape);
  const axis = machine.child('axes').child('X');

  test('read values by the kind that their key has', () => {
    expect(machine.text('machine')?.value).toBe('Slate saw');
    expect(axis.quantity('travel')?.value.value).toBeCloseTo(0.64, 12);
    expect(axis.ratio('gearing')?.value).toMatchObject({ left: 3, right: 1 });
    expect(axis.number('friction')?.value).toBe(0.02);
    expect(axis.child('screw').count('starts')?.value).toBe(2);
    expect(machine.items('records')[0]?.text('axis')?.value).toBe('X');
    const mains = machine.mains('mains')?.value;
    expect([mains?.phases, mains?.voltage.value, mains?.frequency.value]).toEqual([3, 400, 50]);
  });

  test('open circuits to their kind', () => {
    const [first, second] = sheet.child('circuits').entries();
    expect(first?.key.text).toBe('in');
    const span = first?.fields.span('voltage')?.value;
    expect([span?.least.value, span?.most.value]).toEqual([24, 24]);
    expect(second?.fields.flag('clamp')?.value).toBe(false);
  });

  test('have nothing where nothing can be understood', () => {
    expect(axis.quantity('feed')).toBeUndefined();
    expect(axis.quantity('machine')).toBeUndefined();
    expect(axis.count('travel')).toBeUndefined();
    expect(axis.child('belt').quantity('pitch')).toBeUndefined();
    expect(machine.child('nothing').child('at all').entries()).toEqual([]);
    expect(machine.items('axes')).toEqual([]);
  });

  test('are the same object for the same map', () => {
    expect(machine.child('axes').child('X')).toBe(axis);
  });
});

describe('the shape along a path', () => {
  const { root } = readTree(MACHINE);

  test('ends at the key, with its text', () => {
    const at = shapeAlong(machineShape, ['axes', 'X', 'screw', 'lead'], root);
    expect(at?.key?.name).toBe('lead');
    expect(at?.doc).toContain('How far the nut moves in one turn');
    expect(at?.shape).toMatchObject({ kind: 'leaf', leaf: { kind: 'quantity', dimension: 'length' } });
  });

  test('opens an item of the wiring to what it is', () => {
    expect(shapeAlong(machineShape, ['wiring', 0], root)?.shape).toBe(cableShape);
    expect(shapeAlong(machineShape, ['wiring', 0, 'screen'], root)?.key?.name).toBe('screen');
  });

  test('opens a circuit to its kind', () => {
    const at = shapeAlong(sheetShape, ['circuits', 'coil', 'clamp'], readTree(SHEET).root);
    expect(at?.shape).toMatchObject({ kind: 'leaf', leaf: { kind: 'yes-no' } });
    expect(
      shapeAlong(sheetShape, ['circuits', 'coil', 'voltage', 'x'], readTree(SHEET).root),
    ).toBeUndefined();
  });

  test('is undefined where the format knows nothing', () => {
    expect(shapeAlong(machineShape, ['nothing'], root)).toBeUndefined();
    expect(shapeAlong(machineShape, ['wiring', 'x'], root)).toBeUndefined();
    expect(shapeAlong(machineShape, [], undefined)?.shape).toBe(machineShape);
  });
});

describe('single values', () => {
  const read = (text: string, leaf: Leaf) => {
    const scalar: Scalar = {
      kind: 'scalar',
      block: { text },
      from: 0,
      to: text.length,
      text,
      style: 'plain',
      textFrom: 0,
    };
    const { value, problems } = readLeaf(scalar, leaf);
    return problems.length > 0 ? problems.map((problem) => problem.code) : value;
  };

  // The leap years are those of the Gregorian calendar (ISO 8601): 1900 was none, 2000 was one.
  test.for([
    ['2026-03-02', '2026-03-02'],
    ['2024-02-29', '2024-02-29'],
    ['2000-02-29', '2000-02-29'],
    ['1900-02-29', ['shape/wrong-type']],
    ['2026-02-29', ['shape/wrong-type']],
    ['2026-13-01', ['shape/wrong-type']],
    ['2026-00-10', ['shape/wrong-type']],
    ['2026-3-2', ['shape/wrong-type']],
  ])('the date %s', ([text, expected]) => {
    expect(read(text as string, { kind: 'date' })).toEqual(expected);
  });

  test.for([
    ['4', 4],
    ['007', 7],
    ['-1', ['shape/wrong-type']],
    ['1e3', ['shape/wrong-type']],
    ['1,5', ['unit/comma-decimal']],
    ['11', ['shape/wrong-type']],
  ])('the count %s of 0 to 10', ([text, expected]) => {
    expect(read(text as string, { kind: 'count', least: 0, most: 10 })).toEqual(expected);
  });

  test.for([
    ['230 V', ['shape/wrong-type']],
    ['2 x 230 V 50 Hz', ['shape/wrong-type']],
    ['230 V 50 kHz', ['unit/implausible']],
    ['230 A 50 Hz', ['unit/wrong-dimension']],
    ['230V 50', ['unit/missing']],
  ])('the supply network %s', ([text, expected]) => {
    expect(read(text as string, { kind: 'mains' })).toEqual(expected);
  });

  test('a value is read once', () => {
    const scalar: Scalar = {
      kind: 'scalar',
      block: { text: '5 mm' },
      from: 0,
      to: 4,
      text: '5 mm',
      style: 'plain',
      textFrom: 0,
    };
    const leaf: Leaf = { kind: 'quantity', dimension: 'length', units: ['mm'], plausible: ['1 mm', '1 m'] };
    expect(readLeaf(scalar, leaf)).toBe(readLeaf(scalar, leaf));
  });
});
