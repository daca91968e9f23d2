import { describe, expect, it } from 'vitest';
import type { FaultRow } from '../../../server/core/circuits/solve/faults.ts';
import { findLoads } from '../../../server/core/circuits/solve/loads.ts';
import { writeNetlists } from '../../../server/core/circuits/solve/netlist.ts';
import { gravest } from '../../../server/core/circuits/solve/solved.ts';
import { MOST_UNKNOWNS } from '../../../server/core/circuits/solve/solver.ts';
import type { Verdict } from '../../../server/core/circuits/solve/verdict.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { inputOf, machineOf, solveText } from './machines.ts';

/* What several circuits do together: relays that hold one another, currents that add up, chains too long to solve. */

type Parts = readonly (BenchPart | readonly [string, BenchPart])[];

describe('relays', () => {
  const COMMON = ['psu.V- -> a.A2, b.A2, c.A2'];
  const THREE: Parts = ['psu', ['c', 'relay'], ['b', 'relay'], ['a', 'relay']];
  const heldIn = (parts: Parts, links: readonly string[]) =>
    [...solveText(benchMachine(parts, links)).held].sort();
  const chain = [...COMMON, 'a.14 -> b.A1', 'psu.V+ -> a.11, b.11', 'b.14 -> c.A1'];
  it('in a chain are all held, and all let go where the first is not fed', () => {
    expect(heldIn(THREE, [...chain, 'psu.V+ -> a.A1'])).toEqual(['a', 'b', 'c']);
    expect(heldIn(THREE, chain)).toEqual([]);
  });
  it('of which one is fed through the resting side of another are held while that one is not', () => {
    const resting = [...COMMON, 'psu.V+ -> a.11', 'a.12 -> b.A1'];
    expect(heldIn(THREE, [...resting, 'psu.V+ -> a.A1'])).toEqual(['a']);
  });
  it('that hold one another stay held', () => {
    const ring = [...COMMON, 'psu.V+ -> a.11, b.11', 'a.14 -> b.A1', 'b.14 -> a.A1'];
    expect(heldIn(THREE, ring)).toEqual(['a', 'b']);
  });
  it('get what is left of a voltage behind a resistor, and are held from 85 % of theirs', () => {
    // 1 kohm behind 2 kohm is left a third.
    const links = ['psu.V- -> a.A2', 'resistor.B -> a.A1'];
    const parts: Parts = ['psu', ['psu72', 'psu48'], 'resistor', ['a', 'relay']];
    expect(heldIn(parts, [...links, 'psu.V+ -> resistor.A'])).toEqual([]);
    // 48 V upon 24 V are 72 V, of which 24 V are left.
    expect(heldIn(parts, [...links, 'psu.V+ -> psu72.V-', 'psu72.V+ -> resistor.A'])).toEqual(['a']);
  });
  it('of which nobody knows for how many volts they are hold at any that is worth the name', () => {
    const heldAt = (volts: string) =>
      [
        ...solveText(
          benchMachine(['psu', 'relay'], ['psu.V+ -> relay.A1', 'psu.V- -> relay.A2'])
            .replace('coil: [A1, A2], voltage: 24 V', 'coil: [A1, A2]')
            .replace('voltage: 24 V, trim', `voltage: ${volts}, trim`),
        ).held,
      ].length;
    expect([heldAt('1 V'), heldAt('0.99 V')]).toEqual([1, 0]);
  });
  it('without a contact hold nothing, as the coil of a valve', () => {
    const text = benchMachine(['psu', 'relay'], ['psu.V+ -> relay.A1', 'psu.V- -> relay.A2']).replace(
      /,\s*contact: \{ changeover.*?\}, seal: \{.*?\}/s,
      '',
    );
    expect(text).not.toContain('seal');
    expect([...solveText(text).held]).toEqual([]);
  });
  it('drop what they hold when what holds them is operated', () => {
    // The relay holds itself by one contact, and the input by another one that hangs on the same node.
    const links = [
      'psu.V+ -> closed.A',
      'closed.B -> relay.23, relay.11',
      'relay.24 -> relay.A1',
      'relay.A2 -> psu.V-',
      'relay.14 -> reader.DN',
      'psu.V- -> reader.S0',
    ];
    const solved = solveText(benchMachine(['psu', 'closed', 'relay', 'reader'], links));
    const input = inputOf(solved, 'reader.down');
    expect(input.rest.value).toBeCloseTo(24, 6);
    const [operation] = input.operations;
    expect([operation?.actor.name, operation?.sight.level]).toEqual(['closed', 'off']);
    // Nobody operates a relay but its coil: beside its own coil it is no actor, beside others it is.
    expect(input.operations.map(({ actor }) => actor.name)).toEqual(['closed', 'relay']);
    const coil = inputOf(solved, 'relay.coil');
    expect([...coil.operations.map(({ actor }) => actor.name), ...coil.idle.map(({ name }) => name)]).toEqual(
      ['closed'],
    );
  });
});

describe('currents add up', () => {
  /** So many sensors behind one contact, each with a load of 2 kohm; what flows through the contact at most, in mA. */
  const throughContact = (sensors: number) => {
    const each = Array.from({ length: sensors }, (_, place) => [`s${place}`, `r${place}`] as const);
    const parts: Parts = [
      'psu',
      'closed',
      ...each.flatMap(
        ([sensor, load]): Parts => [
          [sensor, 'pnp'],
          [load, 'resistor'],
        ],
      ),
    ];
    const links = each.flatMap(([sensor, load]) => [
      `closed.B -> ${sensor}.P`,
      `psu.V- -> ${sensor}.M, ${load}.B`,
      `${sensor}.O -> ${load}.A`,
    ]);
    const loads = findLoads(solveText(benchMachine(parts, ['psu.V+ -> closed.A', ...links])));
    const load = loads.find(({ element }) => element.at.part.name === 'closed');
    return [Number(((load?.amps ?? 0) * 1e3).toFixed(2)), load?.operated.map(({ name }) => name)];
  };
  it('of each two sensors, beside what all of them draw', () => {
    // Each draws 12 mA of 24 V, and gives 22 V to 2 kohm when it is on.
    expect(throughContact(1)).toEqual([23, ['s0']]);
    expect(throughContact(2)).toEqual([46, ['s0', 's1']]);
    expect(throughContact(3)).toEqual([58, ['s0', 's1']]);
  });
  it('of no pairs where there are too many', () => {
    expect(throughContact(12)).toEqual([12 * 12 + 22, ['s0', 's1']]);
    expect(throughContact(13)).toEqual([13 * 12 + 11, ['s0']]);
  });
  it('of no two contacts, which different hands operate', () => {
    const links = [
      'psu.V+ -> closed.A',
      'closed.B -> a.A, b.A',
      'a.B -> r.A',
      'b.B -> s.A',
      'psu.V- -> r.B, s.B',
    ];
    const parts: Parts = [
      'psu',
      'closed',
      ['a', 'open'],
      ['b', 'open'],
      ['r', 'resistor'],
      ['s', 'resistor'],
    ];
    const loads = findLoads(solveText(benchMachine(parts, links)));
    expect(
      loads.map(({ element: { at }, amps, operated }) => [
        at.part.name,
        Number(amps.toFixed(6)),
        operated.length,
      ]),
    ).toEqual([
      ['closed', 0.012, 1],
      ['a', 0.012, 1],
      ['b', 0.012, 1],
    ]);
  });
});

describe('a chain of resistors', () => {
  /** From 24 V over a contact and so many resistors to an input. */
  const throughChain = (resistors: number) => {
    const names = Array.from({ length: resistors }, (_, place) => `r${place}`);
    const links = names.map((name, place) => `${place === 0 ? 'closed.B' : `r${place - 1}.B`} -> ${name}.A`);
    const parts: Parts = ['reader', 'closed', ...names.map((name) => [name, 'resistor'] as const)];
    const text = benchMachine(parts, [
      'reader.S24 -> closed.A',
      ...links,
      `r${resistors - 1}.B -> reader.DN`,
    ]);
    return inputOf(solveText(text), 'reader.down');
  };
  const actorsOf = ({ operations }: ReturnType<typeof throughChain>) =>
    operations.map(({ actor, sight }) => [actor.name, sight.level, sight.trouble]);
  it('is solved as far as there is room for its nodes', () => {
    // So many while the contact is open: one before each resistor, and that of the input.
    const long = throughChain(MOST_UNKNOWNS - 1);
    expect(long.rest.trouble).toBeUndefined();
    expect(long.rest.value).toBeCloseTo((24 * 4) / (4 + 2 * (MOST_UNKNOWNS - 1)), 4);
    expect(actorsOf(long)).toEqual([['closed', 'off', undefined]]);
  });
  it('is too large beyond, first while the contact is open', () => {
    const longer = throughChain(MOST_UNKNOWNS);
    expect([longer.rest.level, longer.rest.trouble]).toEqual(['off', undefined]);
    expect(actorsOf(longer)).toEqual([['closed', 'unknown', 'too-large']]);
  });
  it('that is always too large is changed by nobody, as far as anybody knows', () => {
    const { rest, operations, idle } = throughChain(MOST_UNKNOWNS + 1);
    expect([rest.level, rest.trouble, operations.length, idle.length]).toEqual([
      'unknown',
      'too-large',
      0,
      0,
    ]);
  });
});

describe('the SPICE text of a circuit', () => {
  const notesOf = (more: number, links: readonly string[] = []) => {
    const strip = Array.from({ length: more }, (_, place) => `reader.S24 -> strip.${place}`);
    const text = benchMachine(
      ['reader', 'closed', ['other', 'closed']],
      ['reader.S24 -> closed.A', 'closed.B -> reader.DN', ...strip, ...links],
    );
    const netlists = writeNetlists(machineOf(text), 'reader.down');
    if ('missing' in netlists) throw new Error('no netlists');
    return netlists[0]?.text.split('\n').filter((line) => line.includes(' is ')) ?? [];
  };
  it('names what each node is on the machine, up to six terminals, and what it was solved to', () => {
    const start = 'reader.S24 closed.A strip.0 strip.1 strip.2 strip.3';
    const railOf = (more: number) =>
      notesOf(more)
        .find((line) => line.includes('reader.S24'))
        ?.replace(/.* is /, '');
    expect(railOf(4)).toBe(`${start}, solved to 24.0000 V`);
    expect(railOf(5)).toBe(`${start} and 1 more, solved to 24.0000 V`);
    expect(railOf(7)).toBe(`${start} and 3 more, solved to 24.0000 V`);
  });
  it('does not say what nodes were solved to where supplies are set against each other', () => {
    const lines = notesOf(0, ['reader.V5 -> other.A', 'other.B -> reader.DN']);
    expect(lines.length).toBeGreaterThan(2);
    expect(lines.filter((line) => line.includes('solved to'))).toEqual([]);
  });
});

it('of several faults the gravest is told, and the first of those that are as grave', () => {
  const rows = (...verdicts: Verdict[]) =>
    verdicts.map((verdict, place) => ({ verdict, place }) as unknown as FaultRow);
  const placeIn = (...verdicts: Verdict[]) => {
    const all = rows(...verdicts);
    const found = gravest(all);
    return found && all.indexOf(found);
  };
  expect(placeIn()).toBeUndefined();
  expect(placeIn('at-once', 'not-seen', 'next-use', 'not-seen')).toBe(1);
  expect(placeIn('unknown', 'at-once', 'next-use')).toBe(2);
  expect(placeIn('harmless', 'unknown', 'at-once', 'at-once')).toBe(2);
});
