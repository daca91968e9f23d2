import { describe, expect, it } from 'vitest';
import { type Fault, findFaults } from '../../../server/core/circuits/solve/faults.ts';
import { railsNear } from '../../../server/core/circuits/solve/shorts.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

/*
 * Which rails a signal could touch: those that come into the parts on its way or run in its cables, for each stretch of it
 * between two things that can switch.
 */

type Parts = readonly (BenchPart | readonly [string, BenchPart])[];

/** The rails beside the signal of an input, in order: where it would touch which one, and at what voltage. */
function railsBeside(parts: Parts, links: readonly string[], name = 'reader.down'): string[] {
  const solved = solveText(benchMachine(parts, links));
  const near = railsNear(solved.board, inputOf(solved, name));
  return near.map(
    ({ terminal, name: rail, volts, isOnMains }) =>
      `${terminal} to ${rail} at ${volts} V${isOnMains ? ' with the mains' : ''}`,
  );
}

/** A machine that has a supply in the first place, with which nothing of the signal has to do. */
const PARTS: Parts = [['far', 'psu48'], 'reader', 'psu', 'closed', 'fuse'];
const LINKS = ['psu.V+ -> closed.A', 'closed.B -> reader.DN', 'psu.V- -> reader.S0'];

/** The part of the input has rails of its own: 24 V on S24, which is the voltage of the supply as well, and 5 V. */
const OWN = [
  'reader.DN to reader.S0 at 0 V',
  'reader.DN to reader.S24 at 24 V',
  'reader.DN to reader.V5 at 5 V',
];

describe('beside a signal are', () => {
  it('the rails in the parts on its way, of each voltage one', () => {
    expect(railsBeside(PARTS, LINKS)).toEqual(OWN);
  });
  it('those in the parts that it comes to, and not those of a part beyond what switches', () => {
    const strip = ['closed.B -> fuse.A', 'fuse.B -> reader.DN', 'far.V- -> fuse.C', 'far.V+ -> psu.V-'];
    const links = [...LINKS.filter((link) => !link.startsWith('closed')), ...strip];
    const lifted = [
      'reader.DN to far.V+ at 48 V',
      'reader.DN to reader.S24 at 72 V',
      'reader.DN to reader.V5 at 53 V',
    ];
    expect(railsBeside(PARTS, links)).toEqual([...lifted, 'reader.DN to far.V- at 0 V']);
    // The same rail in a part that nothing but the feed comes to
    const beyond = ['far.V- -> spare.C', 'psu.V+ -> spare.D', 'far.V+ -> psu.V-'];
    expect(railsBeside(PARTS, [...LINKS, ...beyond])).toEqual(lifted);
  });
  it('of another island also those at the same voltage', () => {
    expect(railsBeside(PARTS, [...LINKS, 'far.V- -> closed.C'])).toEqual([
      ...OWN,
      'reader.DN to far.V- at 0 V',
    ]);
  });
  it('those in the cable of its wire', () => {
    const cable = (signal: string, rail: string) => [
      ...LINKS.filter((link) => !link.startsWith('closed')),
      `{ cable: ${signal}, wire: 2 x 0.5 mm2, links: [closed.B -> reader.DN] }`,
      `{ cable: ${rail}, wire: 2 x 0.5 mm2, links: [far.V+ -> fuse.A] }`,
    ];
    expect(railsBeside(PARTS, cable('K1', 'K2'))).toEqual(OWN);
    expect(railsBeside(PARTS, cable('K1', 'K1'))).toEqual([...OWN, 'reader.DN to far.V+ at 48 V']);
  });
  it('rails that the mains are on, and these are said to be', () => {
    expect(railsBeside(PARTS, [...LINKS, 'far.V- -> closed.C', 'mains.N -> far.V-'])).toEqual([
      ...OWN,
      'reader.DN to far.V- at 0 V with the mains',
    ]);
  });
});

describe('a signal in two stretches', () => {
  const parts: Parts = [['far', 'psu48'], ['a', 'open'], ['b', 'closed'], 'reader', 'psu'];
  const links = ['psu.V+ -> a.A', 'b.B -> reader.DN', 'psu.V- -> reader.S0'];
  it('could touch the rails of each, that of the input first', () => {
    expect(railsBeside(parts, [...links, 'a.B -> b.A'])).toEqual([
      'b.B to reader.S0 at 0 V',
      'b.B to reader.S24 at 24 V',
      'b.B to reader.V5 at 5 V',
      'a.B to psu.V+ at 24 V',
    ]);
  });
  it('is one where no more than a wire with a resistance is between them', () => {
    const wire = '{ link: b.A -> reader.DN, wire: 0.5 mm2, length: 10 m }';
    expect(railsBeside(parts, ['psu.V+ -> b.B', wire, 'psu.V- -> reader.S0'])).toEqual([
      'reader.DN to reader.S0 at 0 V',
      'reader.DN to reader.S24 at 24 V',
      'reader.DN to reader.V5 at 5 V',
    ]);
  });
});

function sayFault(fault: Fault): string {
  switch (fault.kind) {
    case 'broken':
      return `${fault.link.from.id} broken`;
    case 'shorted':
      return `${fault.terminal} on ${fault.rail}`;
    case 'welded':
      return `${fault.part}.${fault.circuit} welded${fault.side ? ` ${fault.side}` : ''}`;
    case 'supply-lost':
      return `${fault.supply.at.part.name}.${fault.supply.at.circuit.name} lost`;
  }
}

describe('single faults', () => {
  /** Each fault of an input that makes a difference, in order. */
  const faultsOf = (partsOf: Parts, links: readonly string[], name: string) =>
    faultsIn(benchMachine(partsOf, links), name);
  const faultsIn = (text: string, name: string) => {
    const rows = findFaults(solveText(text)).all.flatMap((each) => each.rows);
    return rows
      .filter(({ input: { at } }) => `${at.part.name}.${at.circuit.name}` === name)
      .map(({ fault, verdict }) => `${sayFault(fault)} ${verdict}`);
  };
  it('are told once each: breaks, shorts, contacts that stay and supplies that are lost', () => {
    expect(
      faultsOf(
        PARTS.map((each) => (each === 'closed' ? 'open' : each)),
        LINKS.map((link) => link.replace('closed', 'open')),
        'reader.down',
      ),
    ).toEqual([
      'open.B broken not-seen',
      'psu.V+ broken not-seen',
      'reader.DN on reader.S0 next-use',
      'reader.DN on reader.S24 at-once',
      'reader.DN on reader.V5 next-use',
      'open.contact welded at-once',
      'psu.output lost not-seen',
    ]);
  });
  it('of a changeover are those of either side', () => {
    const links = ['psu.V+ -> changeover.C', 'changeover.NO -> reader.DN', 'psu.V- -> reader.S0'];
    const welds = faultsOf(['reader', 'psu', 'changeover'], links, 'reader.down').filter((each) =>
      each.includes('weld'),
    );
    expect(welds).toEqual([
      'changeover.contact welded closed not-seen',
      'changeover.contact welded open at-once',
    ]);
  });
  it('of a wire beside which the actor still works make no difference', () => {
    const links = ['psu.V+ -> a.A, b.A', 'a.B -> reader.DN', 'b.B -> reader.DN', 'psu.V- -> reader.S0'];
    const breaks = faultsOf(['reader', 'psu', ['a', 'open'], ['b', 'open']], links, 'reader.down').filter(
      (each) => each.includes('broken'),
    );
    expect(breaks).toEqual(['a.B broken not-seen', 'psu.V+ broken not-seen']);
  });
  it('of an output that drives an input are no contacts that stay', () => {
    const links = ['reader.V5 -> drive.P+', 'reader.OUT -> drive.P-'];
    const welds = faultsOf(['reader', 'drive'], links, 'drive.pulse').filter((each) => each.includes('weld'));
    expect(welds).toEqual([]);
  });
  it('of a supply whose minus alone is there are none of its loss', () => {
    const links = [...LINKS, 'far.V- -> reader.S0'];
    const losses = faultsOf(PARTS, links, 'reader.down').filter((each) => each.includes('lost'));
    expect(losses).toEqual(['psu.output lost at-once']);
  });
  it('of contacts that stay so that supplies are set against each other are seen then', () => {
    // Both contacts move together: one leads the input to 0 V until it opens, the other one to 24 V when it closes.
    const text = benchMachine(
      ['reader'],
      ['reader.S0 -> pair.A', 'pair.B -> reader.DN', 'reader.S24 -> pair.C', 'pair.D -> reader.DN'],
    ).replace(
      'wiring:',
      `  pair: { class: switch, terminals: { all: [A, B, C, D] }, circuits: {
      low: { contact: [A, B], rest: closed }, high: { contact: [C, D], rest: open } } }
wiring:`,
    );
    expect(faultsIn(text, 'reader.down').filter((each) => each.includes('weld'))).toEqual([
      'pair.low welded next-use',
      'pair.high welded at-once',
    ]);
  });
});
