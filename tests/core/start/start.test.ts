import { describe, expect, test } from 'vitest';
import { analyse } from '../../../server/core/analysis.ts';
import { formatText } from '../../../server/core/features/formatting.ts';
import { findAll } from '../../../server/core/findings/find.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import { keyInSettings } from '../../../server/core/start/key-in.ts';
import { CARRIERS, type Carrier, MAINS_CHOICES, writeMachine } from '../../../server/core/start/machine.ts';
import { PART_CLASSES, writeSheet } from '../../../server/core/start/sheet.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';
import { worldOf } from '../../support/world.ts';

const world = worldOf(new Map());
const trees = createTrees();
const read = (text: string, file = 'x.machine.yaml') => analyse(file, text, world, trees);
const wrong = (text: string, file?: string) =>
  findAll(read(text, file)).filter(
    ({ severity, code }) =>
      severity === 'error' || (severity === 'warning' && !code.startsWith('safety/emergency-stop')),
  );

describe.each(Object.keys(CARRIERS) as Carrier[])('a new machine with a %s', (carrier) => {
  test.each([['XYZ'], ['XY'], ['XZ'], ['XYZA'], ['XYZUVC'], ['']])(
    'and the axes %s has nothing wrong',
    (letters) => {
      for (const spindle of [false, true]) {
        const text = keyInSettings(
          writeMachine({
            name: 'Toy: a #1',
            mains: MAINS_CHOICES[0],
            axes: letters.split(''),
            carrier,
            spindle,
          }),
          read,
        );
        expect(
          wrong(text).map(({ message }) => message),
          text,
        ).toEqual([]);
        const analysis = read(text);
        expect(
          analysis.kind === 'machine' && [analysis.machine.title, [...analysis.machine.axes.keys()].join('')],
        ).toEqual(['Toy: a #1', letters]);
      }
    },
  );
});

test.each(MAINS_CHOICES)('a new machine on %s has nothing wrong and is laid out', (mains) => {
  const text = keyInSettings(
    writeMachine({ name: 'Toy', mains, axes: ['X', 'Y'], carrier: 'belt', spindle: false }),
    read,
  );
  expect(wrong(text).map(({ message }) => message)).toEqual([]);
  expect(formatText({ tree: readTree(text) })).toEqual([]);
});

test('a new sheet of every class has no errors, whatever its terminals are called', () => {
  expect(PART_CLASSES.length).toBeGreaterThan(10);
  for (const [partClass] of PART_CLASSES) {
    const text = writeSheet({
      part: 'A: b',
      partClass,
      source: 'Datasheet 3, p. 4',
      terminals: ['V+', '24V', '-', '#1', 'A'],
    });
    const analysis = read(text, 'x.part.yaml');
    expect(
      findAll(analysis)
        .filter(({ severity }) => severity === 'error')
        .map(({ message }) => message),
      text,
    ).toEqual([]);
    expect(analysis.kind === 'part' && [...analysis.sheet.terminals.keys()]).toEqual([
      'V+',
      '24V',
      '-',
      '#1',
      'A',
    ]);
  }
});
