import { expect, it } from 'vitest';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from '../circuits/bench-parts.ts';
import { SHEETS, wireOtherwise, withSheets } from '../circuits/call-otherwise.ts';
import { randomMachine } from '../circuits/random-machine.ts';
import { expectAsAnew } from '../keeping/as-anew.ts';

const MACHINES = 12;
const EDITS = 10;
const FILE = 'm.machine.yaml';

/** A coil behind a contact, which hangs on its supply through a labelled wire and a fuse, or through the wire alone. */
const machine = (end: string) =>
  benchMachine(
    ['psu', 'fuse', 'closed', 'relay'],
    [
      `{ link: psu.V+ -> fuse.${end}, label: W1, wire: 0.5 mm2, length: 2 m }`,
      'fuse.B -> closed.A',
      'closed.B -> relay.A1',
      'relay.A2 -> psu.V-',
    ],
  );

it('what a circuit draws takes another way to its supply when that is wired otherwise, though the circuit is the same', () => {
  const fettle = createFettle(worldOf(new Map()));
  const [before, after] = ['A', 'B'].map((end) => {
    const analysis = fettle.analyse(FILE, machine(end));
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    return {
      groups: circuitsOf(analysis.machine).solved.groups,
      current: analysis.values.byAddress.get('wires.W1.current')?.value,
    };
  });
  // 24 V across 1 kohm.
  expect(before?.current).toBeCloseTo(0.024, 4);
  expect(after?.current).toBeCloseTo(0.024, 4);
  expect(before?.groups.filter((group) => after?.groups.includes(group)).length).toBeGreaterThan(0);
});

it('what signals take from a supply goes with the coils that are wired to another one', () => {
  const fettle = createFettle(worldOf(new Map()));
  const loadsWith = (supply: string) => {
    const text = benchMachine(
      ['psu', ['other', 'psu'], ['one', 'relay'], ['two', 'relay']],
      ['psu.V+ -> one.A1', 'one.A2 -> psu.V-', `${supply}.V+ -> two.A1`, `two.A2 -> ${supply}.V-`],
    );
    const analysis = fettle.analyse('m.machine.yaml', text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    const { byAddress } = analysis.values;
    return ['psu', 'other'].map((name) => byAddress.get(`parts.${name}.load`)?.si);
  };
  const coil = 24 / 1000;
  for (const [supply, loads] of [
    ['psu', [2 * coil, undefined]],
    ['other', [coil, coil]],
    ['psu', [2 * coil, undefined]],
  ] as const)
    expect(loadsWith(supply)).toEqual(loads.map((amps) => amps && expect.closeTo(amps, 9)));
});

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'whatever is wired otherwise in small machine %i, what is said is what would be said of a new one',
  (seed) => {
    const random = randomFrom(seed);
    let text = withSheets(randomMachine(random));
    const fettle = createFettle(worldOf(SHEETS));
    for (let edit = 1; edit <= EDITS && text.match(/ -> /g)?.length !== 1; edit++) {
      if (random.below(4) === 0) fettle.findings(fettle.analyse(FILE, text));
      else expectAsAnew(fettle, new Map([...SHEETS, [FILE, text]]), FILE, `edit ${edit}:\n${text}`, false);
      text = wireOtherwise(text, random);
    }
  },
);
