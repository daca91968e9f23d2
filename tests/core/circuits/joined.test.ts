import { describe, expect, it } from 'vitest';
import { type Nets, netsOf } from '../../../server/core/circuits/nets.ts';
import type { Machine } from '../../../server/core/model/resolve.ts';
import { factBy } from '../../../server/core/reuse/fact.ts';
import { randomFrom } from '../../support/random.ts';
import { benchMachine } from './bench-parts.ts';
import { wireOtherwise, withSheets } from './call-otherwise.ts';
import { randomMachine } from './random-machine.ts';
import { analyse, openBench } from './versions.ts';

/*
 * What is on one net, and which links end where, after any number of edits: held to what is found by spreading over the
 * links and the commons of the machine alone. Whoever asked about one terminal is asked again whenever that is another.
 */

const MACHINES = 16;
const EDITS = 20;

/** What links and commons join, pair by pair, in the order in which the nets name it. */
function pairsOf({ links, parts }: Machine): (readonly [string, string])[] {
  const pairs = links.map(({ from, to }) => [from.id, to.id] as const);
  for (const { name, sheet } of parts.values())
    for (const { kind, ends } of sheet?.circuits.values() ?? []) {
      const [first, ...others] = ends.map(({ text }) => `${name}.${text}`);
      if (kind === 'joined' && first !== undefined)
        for (const other of others) pairs.push([first, other] as const);
    }
  return pairs;
}

/** All that hangs together with a terminal, in the order in which it is named. */
function joinedTo(terminal: string, pairs: readonly (readonly [string, string])[]): string[] {
  const found = new Set([terminal]);
  // The set grows while it is walked through.
  for (const each of found)
    for (const pair of pairs) if (pair.includes(each)) found.add(pair[0]).add(pair[1]);
  return [...new Set(pairs.flat())].filter((each) => found.has(each));
}

const askOf = (nets: Nets, terminal: string) => ({
  net: nets.netOf(terminal),
  isWired: nets.isWired(terminal),
  links: nets.linksAt(terminal),
  terminals: nets.terminalsOn(nets.netOf(terminal)),
});

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'in small machine %i it is what links and commons join, after each edit',
  (seed) => {
    const random = randomFrom(seed);
    let worked = 0;
    const told = factBy('machine', (machine: Machine, terminal: string) => {
      worked++;
      return askOf(netsOf(machine), terminal);
    });
    let text = withSheets(randomMachine(random));
    const fettle = openBench();
    let asked = 0;
    for (let each = 0; each < EDITS && text.match(/ -> /g)?.length !== 1; each++) {
      const { machine } = analyse(fettle, text);
      const pairs = pairsOf(machine);
      const terminals = [...new Set(pairs.flat())];
      const nets = netsOf(machine);
      for (const terminal of terminals) {
        const seen = askOf(nets, terminal);
        expect(seen.terminals, `${terminal}\n${text}`).toEqual(joinedTo(terminal, pairs));
        // A link from a terminal to itself ends there twice.
        const links = machine.links.flatMap((link) =>
          [link.from, link.to].flatMap(({ id }) => (id === terminal ? [link] : [])),
        );
        expect(seen.links, `${terminal}\n${text}`).toEqual(links);
        expect(seen.links.every((link, place) => link === links[place])).toBe(true);
        expect(seen.isWired).toBe(links.length > 0);
        for (const other of terminals)
          expect(nets.netOf(other) === seen.net).toBe(seen.terminals.includes(other));
      }
      // Of some versions nothing is asked, and of others not everything.
      const share = random.below(3);
      for (const terminal of terminals) {
        if (random.below(2) >= share) continue;
        asked++;
        const kept = told(machine, terminal);
        const now = askOf(nets, terminal);
        expect(kept, `${terminal}\n${text}`).toEqual(now);
        // Equal is not enough: an earlier link knows earlier places.
        expect(kept.links.every((link, place) => link === now.links[place])).toBe(true);
      }
      text = wireOtherwise(text, random);
    }
    expect(asked).toBeGreaterThan(0);
    expect(worked).toBeLessThan(asked);
  },
);

describe('a terminal that nothing reaches', () => {
  const { nets } = analyse(openBench(), withSheets(benchMachine(['fuse', 'closed'], ['fuse.A -> closed.A'])));
  it('is on a net of its own, on which nothing is wired', () => {
    expect(nets.netOf('fuse.B')).not.toBe(nets.netOf('closed.B'));
    expect(nets.netOf('fuse.B')).not.toBe(nets.netOf('fuse.A'));
    expect([nets.isWired('fuse.B'), nets.linksAt('fuse.B')]).toEqual([false, []]);
  });
  it('is not joined to anything by a number that no net has', () => {
    expect(nets.terminalsOn(10_000)).toEqual([]);
    expect(nets.terminalsOn(-1)).toEqual([]);
  });
});

describe('after a link is led elsewhere', () => {
  const machine = (...links: string[]) => withSheets(benchMachine(['fuse', 'closed', 'open', 'psu'], links));
  const linksAtOf = (terminal: string) => {
    let worked = 0;
    const ask = factBy('machine', (now: Machine, name: string) => {
      worked++;
      return netsOf(now).linksAt(name).length;
    });
    return (now: Machine) => [ask(now, terminal), worked];
  };
  it('only those are asked again at whose terminals it ends or ended', () => {
    const fettle = openBench();
    const asks = ['fuse.A', 'closed.A', 'open.A', 'psu.V+'].map(linksAtOf);
    const look = (text: string) => asks.map((ask) => ask(analyse(fettle, text).machine));
    const links = ['fuse.A -> closed.A', 'psu.V+ -> psu.V-'];
    expect(look(machine(...links))).toEqual([
      [1, 1],
      [1, 1],
      [0, 1],
      [1, 1],
    ]);
    expect(look(machine('fuse.A -> open.A', 'psu.V+ -> psu.V-'))).toEqual([
      [1, 2],
      [0, 2],
      [1, 2],
      [1, 1],
    ]);
  });
});
