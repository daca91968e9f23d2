import { describe, expect, it } from 'vitest';
import { openCircuitsOf } from '../../../server/core/circuits/loops/open-circuits.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';

/*
 * Where an open circuit is likeliest to lack a wire: first an end that leads nowhere, then what is farthest from all that
 * works, then what most hangs on, then what needs a current, then in the order of the machine.
 */

type Parts = readonly (BenchPart | readonly [string, BenchPart])[];

function looseIn(text: string): string[][] {
  const { all, terminalsOn } = openCircuitsOf(machineOf(text));
  return all.map(({ loose }) => loose.map((node) => terminalsOn(node).join(' = ')));
}

/** Contacts by their names, in their order. */
const contacts = (...names: string[]): Parts => names.map((name) => [name, 'closed'] as const);

describe('of the loose ends of an open circuit', () => {
  it('those on which more hangs come first among those that are equally far', () => {
    const links = ['psu.V+ -> z.A', 'z.B -> a.A, b.A', 'a.B -> c.A, d.A', 'b.B -> e.A'];
    expect(looseIn(benchMachine(['psu', ...contacts('z', 'b', 'a', 'e', 'd', 'c')], links))).toEqual([
      ['e.B', 'd.B', 'c.B', 'a.B = d.A = c.A', 'b.B = e.A', 'z.B = b.A = a.A'],
    ]);
  });
  it('those that need a current come first among those on which as much hangs', () => {
    const links = ['psu.V+ -> k.A1', 'k.A2 -> c.A, m.A1', 'c.B -> d.A', 'm.A2 -> e.A'];
    const parts: Parts = ['psu', ['k', 'relay'], ...contacts('c', 'd'), ['m', 'relay'], ...contacts('e')];
    expect(looseIn(benchMachine(parts, links))).toEqual([
      ['d.B', 'e.B', 'm.A2 = e.A', 'c.B = d.A', 'k.A2 = c.A = m.A1'],
    ]);
  });
  it('none is told to which nothing leads but what needs no current itself', () => {
    const chain = ['psu.V+ -> resistor.A', 'resistor.B -> relay.A1'];
    const text = benchMachine(['psu', 'resistor', 'relay'], chain);
    // A resistor that is a load needs a current, as a coil does; any other is only in the way of one.
    expect(looseIn(text)).toEqual([['relay.A2', 'resistor.B = relay.A1']]);
    expect(looseIn(text.replace('class: load', 'class: other'))).toEqual([['relay.A2']]);
  });
  it('of a sensor its feed is told, and its output where that is not fed', () => {
    const parts: Parts = ['psu', 'reader', 'pnp'];
    const COMMON = 'psu.V- -> reader.S0';
    expect(
      looseIn(benchMachine(parts, ['psu.V+ -> pnp.P', 'pnp.M -> psu.V-', 'pnp.O -> reader.DN', COMMON])),
    ).toEqual([]);
    expect(looseIn(benchMachine(parts, ['psu.V+ -> pnp.P', 'pnp.O -> reader.DN', COMMON]))).toEqual([
      ['pnp.M'],
    ]);
    expect(looseIn(benchMachine(parts, ['pnp.M -> psu.V-', 'pnp.O -> reader.DN', COMMON]))).toEqual([
      ['reader.DN = pnp.O', 'pnp.P'],
    ]);
  });
});

describe('what is meant to be used', () => {
  const open = (parts: Parts, links: readonly string[]) => looseIn(benchMachine(parts, links)).flat();
  it('is a load of which either terminal is wired, and no load of which none is', () => {
    const fed = (link: string) =>
      looseIn(
        benchMachine(['psu'], [link]).replace(
          'wiring:',
          '  it: { class: other, terminals: { all: [P, M] }, circuits: { in: { power-in: [P, M] } } }\nwiring:',
        ),
      ).flat();
    expect(fed('psu.V+ -> it.P')).toEqual(['it.M']);
    expect(fed('psu.V- -> it.M')).toEqual(['it.P']);
    expect(fed('psu.V+ -> strip.1')).toEqual([]);
    expect(open(['psu', 'closed'], ['psu.V- -> closed.A', 'psu.V+ -> closed.B'])).toEqual([]);
  });
  it('is an input or an output by its signal, and not by its return', () => {
    expect(open(['reader', 'closed'], ['reader.DN -> closed.A'])).toContain('closed.B');
    expect(open(['reader', 'closed'], ['reader.S0 -> closed.A', 'reader.S24 -> closed.B'])).toEqual([]);
  });
  it('is of a changeover the side that is wired, and the other one where none is', () => {
    const parts: Parts = ['psu', 'changeover', 'resistor'];
    const links = ['psu.V+ -> changeover.C', 'psu.V- -> resistor.B'];
    expect(open(parts, [...links, 'changeover.NO -> resistor.A'])).toEqual([]);
    expect(open(parts, [...links, 'changeover.NC -> resistor.A'])).toEqual([]);
    expect(open(parts, ['psu.V+ -> changeover.C', 'changeover.NO -> resistor.A'])).toEqual(['resistor.B']);
    expect(open(parts, ['psu.V+ -> changeover.C'])).toEqual(['changeover.NC', 'changeover.NO']);
  });
  it('is no contact that nobody has wired', () => {
    expect(open(['psu', 'open', 'relay'], ['psu.V+ -> relay.A1', 'relay.A2 -> psu.V-'])).toEqual([]);
  });
});
