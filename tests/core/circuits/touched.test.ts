import { expect, it } from 'vitest';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { SHEETS, withSheets } from './call-otherwise.ts';
import { solvedAnew, solvedOf } from './plain.ts';

/*
 * The circuit of an input is the same in both texts, and so is what its contact does. What changes is beside it: its faults
 * are others all the same, as when they are solved anew.
 */

const FILE = 'm.machine.yaml';
const open = (): Fettle => createFettle(worldOf(new Map()));
const cable = (link: string) => `{ cable: K1, wire: 4 x 0.5 mm2, links: [${link}] }`;

const COMMON = ['psu.V- -> reader.S0', 'psu.V- -> other.V-'];
/** The contact of a relay whose coil is not wired stands in the signal; it is fed through a terminal of another part. */
const BY_RELAY = ['open.A -> relay.23', 'relay.24 -> reader.DN'];
const FEED = 'psu.V+ -> open.A';
const BY_FUSE = ['psu.V+ -> spare.A', 'psu.V+ -> fuse.A', 'fuse.B -> relay.23', 'relay.24 -> reader.DN'];

it.each([
  ['one of two wires that feed it is gone', [...BY_RELAY, FEED, FEED], [...BY_RELAY, FEED]],
  ['a second wire feeds it', [...BY_RELAY, FEED], [...BY_RELAY, FEED, FEED]],
  ['a longer way leads round the fuse that feeds it', BY_FUSE, [...BY_FUSE, 'spare.B -> fuse.B']],
  ['a rail comes to a part in its signal', [...BY_RELAY, FEED], [...BY_RELAY, FEED, 'other.V+ -> relay.A1']],
  ['a rail leaves a part in its signal', [...BY_RELAY, FEED, 'other.V+ -> relay.A1'], [...BY_RELAY, FEED]],
  [
    'a rail runs in the cable of its signal',
    [FEED, 'open.A -> closed.A', cable('closed.B -> reader.DN')],
    [FEED, 'open.A -> closed.A', cable('closed.B -> reader.DN'), cable('other.V+ -> resistor.A')],
  ],
])('finds the faults of an input again where %s', (_, before, after) => {
  const fettle = open();
  const [was, is] = [before, after].map((links) => {
    const text = benchMachine(
      ['psu', ['other', 'psu48'], 'open', 'closed', 'relay', 'resistor', 'fuse', ['spare', 'fuse'], 'reader'],
      [...COMMON, ...links],
    );
    const { faults } = solvedOf(fettle, FILE, text);
    expect(faults).toEqual(solvedAnew(open(), FILE, text).faults);
    return { faults, inputs: inputsOf(fettle, text) };
  });
  expect(is?.faults).not.toEqual(was?.faults);
  const inputOf = (version: typeof was) => version?.inputs.find(({ at }) => at.circuit.name === 'down');
  expect(inputOf(is)).toBe(inputOf(was));
});

it('finds the faults of an input again where a rail beside its signal, on which the mains are, is at another voltage', () => {
  // The other supply has no common with the circuit, which feels nothing of it; what a short to the mains does nobody knows.
  const machineAt = (volts: number) =>
    withSheets(
      benchMachine(
        ['psu', ['other', 'psu'], 'open', 'relay', 'reader'],
        ['psu.V- -> reader.S0', FEED, ...BY_RELAY, 'other.V+ -> relay.A1', 'mains.N -> relay.A1'],
      ),
    ).replace(/(?<=other: \{ .*)(?= \})/, `, set: { output-voltage: ${volts} V }`);
  const openWithSheets = () => createFettle(worldOf(SHEETS));
  const fettle = openWithSheets();
  const [was, is] = [24, 26].map((volts) => {
    const { faults } = solvedOf(fettle, FILE, machineAt(volts));
    expect(faults).toEqual(solvedAnew(openWithSheets(), FILE, machineAt(volts)).faults);
    return { faults: String(faults), inputs: inputsOf(fettle, machineAt(volts)) };
  });
  expect([was?.faults, is?.faults]).toEqual([
    expect.stringContaining('rail other.V+ at 24'),
    expect.stringContaining('rail other.V+ at 26'),
  ]);
  const inputOf = (version: typeof was) => version?.inputs.find(({ at }) => at.circuit.name === 'down');
  expect(inputOf(is)).toBe(inputOf(was));
});

function inputsOf(fettle: Fettle, text: string) {
  const analysis = fettle.analyse(FILE, text);
  if (analysis.kind !== 'machine') throw new Error('not read as a machine');
  return circuitsOf(analysis.machine).solved.inputs;
}
