import { describe, expect, it } from 'vitest';
import { CIRCUIT_KINDS } from '../../../schemas/index.ts';
import { netsOf } from '../../../server/core/circuits/nets.ts';
import { gives, signalEnds, takes } from '../../../server/core/circuits/signal-ends.ts';
import { hopsOf } from '../../../server/core/circuits/signal-graph.ts';
import { circuitsDoing, signalInto } from '../../../server/core/circuits/signals.ts';
import { circuitsOfKind, feedsOf } from '../../../server/core/circuits/supply.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { SHEETS, withSheets } from './call-otherwise.ts';
import { machineOf } from './machines.ts';

/*
 * Where signals come from and where they end, by the kind of a circuit: an output, a contact or a sensor gives one; an input, a
 * coil, a winding, or a supply that something switches takes one. Returns and supplies are common to many and carry none.
 */

const NO_SIGNAL: readonly [boolean, boolean] = [false, false];
const GIVES: readonly [boolean, boolean] = [true, false];
const TAKES: readonly [boolean, boolean] = [false, true];

it.each<[string, readonly [boolean, boolean], readonly number[]]>([
  ['power-in', TAKES, [0]],
  ['power-out', NO_SIGNAL, [0]],
  ['mains-in', TAKES, [0]],
  ['earth', NO_SIGNAL, [0]],
  ['joined', NO_SIGNAL, [0]],
  ['sink-out', GIVES, [0]],
  ['source-out', GIVES, [0]],
  ['push-pull-out', GIVES, [0]],
  ['line-out', GIVES, [0, 1]],
  ['line-in', TAKES, [0, 1]],
  ['contact', GIVES, [0, 1]],
  ['changeover', GIVES, [0, 1, 2]],
  ['pulled-up-in', TAKES, [0]],
  ['pulled-down-in', TAKES, [0]],
  ['opto-in', TAKES, [0, 1]],
  ['sensor', GIVES, [2]],
  ['two-wire-sensor', GIVES, [0, 1]],
  ['analog-out', GIVES, [0]],
  ['analog-in', TAKES, [0]],
  ['coil', TAKES, [0, 1]],
  ['resistor', NO_SIGNAL, [0]],
  ['fuse', NO_SIGNAL, [0]],
  ['phase-out', GIVES, [0, 1]],
  ['winding', TAKES, [0, 1]],
  ['three-phase-out', GIVES, [0, 1, 2]],
  ['three-phase-in', TAKES, [0, 1, 2]],
  ['screen', NO_SIGNAL, [0]],
])('%s', (kind, [isGiver, isTaker], ends) => {
  const terminals = (CIRCUIT_KINDS.get(kind)?.terminals ?? []).map((_, place) => `T${place}`);
  const text = `machine: Bench
parts:
  it: { class: other, terminals: { all: [${terminals.join(', ')}] }, circuits: { c: { ${kind}: [${terminals.join(', ')}] } } }
`;
  const circuit = machineOf(text).parts.get('it')?.sheet?.circuits.get('c');
  if (!circuit) throw new Error('no circuit was read');
  expect([gives(circuit), takes(circuit)]).toEqual([isGiver, isTaker]);
  expect(signalEnds(circuit)).toEqual(ends.map((end) => `T${end}`));
});

it('of no kind of circuit it is left open whether it gives or takes a signal', () => {
  expect(CIRCUIT_KINDS.size).toBe(27);
});

type Parts = readonly (BenchPart | readonly [string, BenchPart])[];

const hopsIn = (text: string) =>
  hopsOf(machineOf(text)).map(({ from, to, links, through }) => {
    const [start, end] = [from, to].map(({ part, circuit }) => `${part.name}.${circuit.name}`);
    return `${start} -> ${end} over ${links.length}${through.length > 0 ? ` by ${through.join(', ')}` : ''}`;
  });
const hops = (parts: Parts, links: readonly string[]) => hopsIn(benchMachine(parts, links));

describe('a signal goes', () => {
  it('from the output of a sensor, and not from its supply', () => {
    const links = ['reader.S24 -> pnp.P', 'pnp.M -> reader.S0', 'pnp.O -> reader.DN'];
    expect(hops(['reader', 'pnp'], links)).toEqual(['pnp.out -> reader.down over 1']);
  });
  it('along both wires of a pair, once to the input', () => {
    const links = ['wheel.W+ -> reader.L+', 'wheel.W- -> reader.L-'];
    expect(hops(['wheel', 'reader'], links)).toEqual(['wheel.a -> reader.line over 1']);
  });
  it('through the contact of another part, and not through its own', () => {
    const links = ['a.A -> b.A', 'b.B -> reader.DN'];
    expect(hops([['a', 'open'], ['b', 'closed'], 'reader'], links)).toEqual([
      'a.contact -> reader.down over 2 by b',
      'b.contact -> reader.down over 1',
    ]);
    expect(hops(['open', 'reader'], ['open.A -> reader.DN', 'open.B -> reader.UP'])).toEqual([
      'open.contact -> reader.down over 1',
      'open.contact -> reader.up over 1',
    ]);
  });
  it('through the contact of a part of the same sheet, which shares the circuit', () => {
    const text = withSheets(
      benchMachine([['a', 'open'], ['b', 'open'], 'reader'], ['a.A -> b.A', 'b.B -> reader.DN']),
    );
    const fettle = createFettle(worldOf(SHEETS));
    const analysis = fettle.analyse('m.machine.yaml', text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    expect(hopsOf(analysis.machine).map(({ through }) => through)).toEqual([['b'], []]);
  });
  it('to each part of the same sheet', () => {
    const links = ['reader.OUT -> one.P-', 'reader.OUT -> other.P-', 'reader.OUT -> other.D-'];
    expect(hops(['reader', ['one', 'drive'], ['other', 'drive']], links)).toEqual([
      'reader.sink -> one.pulse over 1',
      'reader.sink -> other.pulse over 1',
      'reader.sink -> other.direction over 1',
    ]);
  });
  it('inside a part from each input for signals to what it drives, and from a coil to its contacts', () => {
    const parts = (supply: string) => `machine: Bench
parts:
  drive: { class: drive, terminals: { all: [P, M, S, T, A+, A-, U, V, W] }, circuits: { feed: { ${supply}: [P, M] }, pulse: { opto-in: [S, T] }, speed: { analog-in: [S, T] },
    a: { phase-out: [A+, A-] }, motor: { three-phase-out: [U, V, W] } } }
  relay: { class: relay, terminals: { all: [A, B, C, D, E] }, circuits: { coil: { coil: [A, B] }, one: { contact: [C, D] }, two: { changeover: [C, D, E] } } }
`;
    const inside = [
      'drive.pulse -> drive.a over 0',
      'drive.speed -> drive.a over 0',
      'drive.pulse -> drive.motor over 0',
      'drive.speed -> drive.motor over 0',
      'relay.coil -> relay.one over 0',
      'relay.coil -> relay.two over 0',
    ];
    for (const supply of ['power-in', 'mains-in']) expect(hopsIn(parts(supply))).toEqual(inside);
    expect(hopsIn(parts('three-phase-in').replace('[P, M]', '[P, M, U]'))).toEqual(
      expect.arrayContaining(inside),
    );
  });
  it('over no wire on which the mains are', () => {
    const links = ['mains.L -> open.A', 'open.B -> relay.A1', 'mains.N -> relay.A2'];
    expect(hops(['open', 'relay'], links).filter((hop) => hop.startsWith('open'))).toEqual([
      'open.contact -> relay.coil over 1',
    ]);
    const beyond = ['mains.L -> fuse.A', 'fuse.B -> open.A', 'fuse.B -> relay.A1'];
    expect(hops(['open', 'relay', 'fuse'], beyond).filter((hop) => hop.startsWith('open'))).toEqual([]);
  });
});

it('a part on the way is named once, and the one that gives the signal not at all', () => {
  const text = `machine: Bench
parts:
  panel: { class: controller, terminals: { all: [Q, M, F, G] }, circuits: { q: { sink-out: [Q, M] }, f: { fuse: [F, G] } } }
  fuses: { class: fuse, terminals: { all: [A, B, C, D] }, circuits: { one: { fuse: [A, B] }, two: { fuse: [C, D] } } }
  relay: { class: relay, terminals: { all: [A, B] }, circuits: { coil: { coil: [A, B] } } }
wiring:
  - panel.Q -> panel.F
  - panel.G -> fuses.A
  - fuses.B -> fuses.C
  - fuses.D -> relay.A
`;
  expect(hopsIn(text)).toEqual(['panel.q -> relay.coil over 4 by fuses']);
});

describe('what a part has for some purpose', () => {
  const text = `machine: Bench
parts:
  first: { class: controller, terminals: { all: [X, Y, G] }, circuits: { x: { sink-out: [X, G], does: pulse X }, y: { sink-out: [Y, G], does: pulse Y } } }
  drive: { class: drive, terminals: { all: [P, N, Q, G] }, circuits: { in: { opto-in: [P, N], does: pulse }, out: { sink-out: [Q, G], does: pulse X } } }
  second: { class: controller, terminals: { all: [X, G] }, circuits: { x: { sink-out: [X, G], does: pulse X } } }
wiring:
`;
  const machineWith = (...links: string[]) => machineOf(text + links.map((link) => `  - ${link}\n`).join(''));
  const partOf = (machine: ReturnType<typeof machineOf>, name: string) => {
    const part = machine.parts.get(name);
    if (!part) throw new Error(`no part ${name}`);
    return part;
  };
  it('is all that is there for it, or for one axis', () => {
    const first = partOf(machineWith('first.G -> drive.G'), 'first');
    const names = (word: string, axis?: string) => circuitsDoing(first, word, axis).map(({ name }) => name);
    expect([names('pulse'), names('pulse', 'Y'), names('pulse', 'Z'), names('enable')]).toEqual([
      ['x', 'y'],
      ['y'],
      [],
      [],
    ]);
  });
  it.each([
    ['the output of another part', ['second.X -> drive.N'], 'second.x'],
    [
      'the first of several in the order of the machine',
      ['second.X -> drive.N', 'first.Y -> drive.N'],
      'first.y',
    ],
    ['none of its own', ['drive.Q -> drive.N'], undefined],
    ['none by a return', ['first.G -> drive.N'], undefined],
  ])('takes its signal from %s', (_, links, output) => {
    const machine = machineWith(...links);
    const signal = signalInto(machine, netsOf(machine), partOf(machine, 'drive'), 'pulse');
    const { part, circuit } = signal?.output ?? {};
    expect(signal?.input.circuit.name).toBe('in');
    expect(part && `${part.name}.${circuit?.name}`).toBe(output);
  });
  it('takes no signal that it has no input for', () => {
    const machine = machineWith('first.X -> drive.N');
    expect(signalInto(machine, netsOf(machine), partOf(machine, 'drive'), 'enable')).toBeUndefined();
  });
});

describe('what is fed', () => {
  it('is told by the same object as long as its supply, itself and its wire are the same', () => {
    const fettle = createFettle(worldOf(SHEETS));
    const feeds = (...links: string[]) => {
      const text = withSheets(benchMachine(['psu', ['other', 'psu'], 'reader', 'open'], links));
      const analysis = fettle.analyse('m.machine.yaml', text);
      if (analysis.kind !== 'machine') throw new Error('not read as a machine');
      return feedsOf(analysis.machine);
    };
    const links = ['psu.V+ -> reader.DC+', 'psu.V- -> reader.DC-'];
    const [feed, ...others] = feeds(...links);
    expect([feed?.supply.part.name, others]).toEqual(['psu', []]);
    expect(feeds(...links, 'open.A -> reader.DN')[0]).toBe(feed);
    const [second] = feeds('other.V+ -> reader.DC+', 'other.V- -> reader.DC-');
    expect([second?.supply.part.name, second?.link?.from.id]).toEqual(['other', 'other.V+']);
    const [led] = feeds('psu.V+ -> open.A', 'open.A -> reader.DC+', 'psu.V- -> reader.DC-');
    expect([led?.supply.part.name, led?.link?.from.id]).toEqual(['psu', 'open.A']);
  });
});

it('circuits of one kind are listed in the order of the machine', () => {
  const machine = machineOf(benchMachine([['b', 'psu'], 'open', ['a', 'psu48'], 'reader'], ['b.V+ -> a.V+']));
  const names = circuitsOfKind(machine, 'power-out').map(
    ({ part, circuit }) => `${part.name}.${circuit.name}`,
  );
  expect(names).toEqual(['b.output', 'a.output', 'reader.sense', 'reader.logic']);
  expect(circuitsOfKind(machine, 'winding')).toEqual([]);
});
