import { describe, expect, it } from 'vitest';
import { openCircuitsOf } from '../../../server/core/circuits/loops/open-circuits.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';

type Parts = readonly (BenchPart | readonly [string, BenchPart])[];

/** The open circuits of a machine, by names; a node is called by all that is on it. */
function openIn(parts: Parts, links: readonly string[]) {
  const { all, terminalsOn, islandOf } = openCircuitsOf(machineOf(benchMachine(parts, links)));
  const nameOf = (node: number) => terminalsOn(node).join(' = ');
  return all.map(({ legs, loose, anchors, islands }) => {
    expect([...islands]).toEqual([...new Set(anchors.map(islandOf))]);
    return {
      circuits: legs.map(({ at }) => `${at?.part.name}.${at?.circuit.name}`),
      loose: loose.map(nameOf),
      anchors: anchors.map(nameOf),
    };
  });
}

describe('a circuit is open', () => {
  it('where it hangs on one end of a supply alone', () => {
    expect(openIn(['psu', 'closed', 'resistor'], ['psu.V+ -> closed.A', 'closed.B -> resistor.A'])).toEqual([
      {
        circuits: ['closed.contact', 'resistor.r'],
        loose: ['resistor.B'],
        anchors: ['psu.V+ = closed.A'],
      },
    ]);
  });
  it('where it leads from one supply to another that have nothing else in common', () => {
    const links = ['psu.V+ -> pnp.P', 'psu.V- -> pnp.M', 'pnp.O -> reader.DN'];
    expect(openIn(['psu', 'reader', 'pnp'], links)).toEqual([
      {
        circuits: ['reader.down', 'pnp.out'],
        loose: [],
        anchors: ['reader.DC- = reader.S0 = reader.G', 'psu.V+ = pnp.P'],
      },
    ]);
    expect(openIn(['psu', 'reader', 'pnp'], [...links, 'psu.V- -> reader.S0'])).toEqual([]);
  });
  it('and closed where a second one leads back from there', () => {
    const links = ['psu.V+ -> resistor.A', 'resistor.B -> psu48.V+', 'psu.V- -> relay.A1'];
    const parts: Parts = ['psu', 'psu48', 'resistor', 'relay'];
    expect(openIn(parts, links).map(({ circuits }) => circuits)).toEqual([['resistor.r'], ['relay.coil']]);
    expect(openIn(parts, [...links, 'relay.A2 -> psu48.V-'])).toEqual([]);
  });
});

describe('of its loose ends', () => {
  it('those that lead nowhere come first, and of these what is farthest from what drives a current', () => {
    const links = ['wheel.W+ -> a.A', 'a.B -> b.A', 'b.B -> closed.A'];
    expect(openIn(['wheel', ['a', 'resistor'], ['b', 'resistor'], 'closed'], links)).toEqual([
      {
        circuits: ['wheel.a', 'a.r', 'b.r', 'closed.contact'],
        loose: ['closed.B', 'wheel.W-', 'b.B = closed.A', 'a.B = b.A', 'wheel.W+ = a.A'],
        anchors: [],
      },
    ]);
  });
  it('what is farthest from a supply comes before what is nearer', () => {
    const parts: Parts = ['psu', ...['a', 'b', 'c', 'd'].map((name) => [name, 'resistor'] as const)];
    const [open] = openIn(parts, ['psu.V+ -> a.A', 'a.B -> b.A', 'b.B -> c.A', 'a.B -> d.A']);
    expect(open?.loose).toEqual(['c.B', 'd.B', 'b.B = c.A', 'a.B = b.A = d.A']);
  });
});

describe('beside a terminal of which nobody knows what is behind it', () => {
  it('a circuit is open where it has an end that nothing is joined to', () => {
    const [open, ...others] = openIn(['psu', 'relay'], ['psu.V+ -> relay.A1', 'other.X -> relay.A1']);
    expect([open?.loose, others]).toEqual([['relay.A2'], []]);
  });
  it('it may be closed by what nobody knows', () => {
    expect(openIn(['psu', 'relay'], ['psu.V+ -> relay.A1', 'other.X -> relay.A2'])).toEqual([]);
  });
});

describe('two circuits between the same supplies', () => {
  it('lack the same common, so they are one', () => {
    const links = ['psu.V+ -> a.A1', 'a.A2 -> psu48.V+', 'psu.V+ -> b.A1', 'b.A2 -> psu48.V+'];
    const found = openIn(['psu', 'psu48', ['a', 'relay'], ['b', 'relay']], links);
    expect(found.map(({ circuits, loose }) => [circuits, loose])).toEqual([[['a.coil', 'b.coil'], []]]);
  });
  it('lack a wire each where each has a loose end', () => {
    /** A coil that either supply may feed, and whose return is missing. */
    const cell = (coil: string, one: string, other: string) => ({
      parts: [[coil, 'relay'], ...[one, other].map((name) => [name, 'closed'] as const)] as const,
      links: [
        `psu.V+ -> ${one}.A`,
        `psu48.V+ -> ${other}.A`,
        `${one}.B -> ${coil}.A1`,
        `${other}.B -> ${coil}.A1`,
      ],
    });
    const cells = [cell('a', 'c', 'd'), cell('b', 'e', 'f')];
    const found = openIn(
      ['psu', 'psu48', ...cells.flatMap(({ parts }) => parts)],
      cells.flatMap(({ links }) => links),
    );
    expect(found.map(({ circuits, loose }) => [circuits, loose[0]])).toEqual([
      [['a.coil', 'c.contact', 'd.contact'], 'a.A2'],
      [['b.coil', 'e.contact', 'f.contact'], 'b.A2'],
    ]);
  });
});
