import { expect, it } from 'vitest';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { solvedAnew, solvedOf } from './plain.ts';

/*
 * What a broken wire does is remembered from version to version. Each text is held to one that is solved anew: where
 * something else in its circuit is another now, and where what it did was not asked for in between.
 */

const FILE = 'm.machine.yaml';
const open = (): Fettle => createFettle(worldOf(new Map()));
const faultsOf = (fettle: Fettle, text: string): unknown[] =>
  solvedOf(fettle, FILE, text).faults as unknown[];
const faultsAnew = (text: string): unknown[] => solvedAnew(open(), FILE, text).faults as unknown[];

/** A contact that is closed at rest feeds an input, and a resistor behind a very long wire stands beside it. */
function machine(links: readonly string[], { isWired = true, metres = 120_000 } = {}): string {
  return benchMachine(
    ['reader', 'closed', 'resistor'],
    [
      'reader.S24 -> closed.A',
      ...(isWired ? ['closed.B -> reader.DN'] : []),
      `{ link: resistor.B -> reader.DN, wire: 0.14 mm2, length: ${metres} m }`,
      'reader.S24 -> resistor.A',
      ...links,
    ],
  );
}

it('is solved again where another wire of the circuit has another length', () => {
  const fettle = open();
  const before = faultsOf(fettle, machine([]));
  expect(before.length).toBeGreaterThan(0);
  const longer = machine([], { metres: 150_000 });
  const after = faultsOf(fettle, longer);
  expect(after).toEqual(faultsAnew(longer));
  expect(after).not.toEqual(before);
});

it('is solved again where it was not asked for while something was joined otherwise', () => {
  const fettle = open();
  const twice = faultsOf(fettle, machine(['closed.A -> reader.S24']));
  // Without its contact nobody asks what breaks do to the input, while the second of two wires goes.
  expect(faultsOf(fettle, machine([], { isWired: false }))).toEqual([]);
  const once = machine([]);
  const after = faultsOf(fettle, once);
  expect(after).toEqual(faultsAnew(once));
  // With two wires beside each other it made no difference that one was broken.
  expect(after.length).toBeGreaterThan(twice.length);
});

it('is solved again for every input that feels it, also for those around which nothing changed', () => {
  // Two contacts hang on one wire. While it is broken, what is joined to the one input reaches the other too.
  const machineWith = (links: readonly string[]) =>
    benchMachine(
      [['one', 'reader'], ['two', 'reader'], ['first', 'closed'], ['second', 'closed'], 'psu', 'resistor'],
      [
        'psu.V+ -> first.A',
        'first.A -> second.A',
        'first.B -> one.DN',
        'second.B -> two.DN',
        'psu.V- -> one.S0',
        'psu.V- -> two.S0',
        'psu.V+ -> resistor.A',
        ...links,
      ],
    );
  const fettle = open();
  const apart = machineWith([]);
  const joined = machineWith(['{ link: resistor.B -> one.DN, wire: 0.14 mm2, length: 120000 m }']);
  const ofOther = (faults: unknown[]) => faults.filter((row) => String(row).startsWith('two.down'));
  const before = faultsOf(fettle, apart);
  const after = faultsOf(fettle, joined);
  expect(after).toEqual(faultsAnew(joined));
  expect(ofOther(after)).not.toEqual(ofOther(before));
  expect(faultsOf(fettle, apart)).toEqual(before);
});
