import { describe, expect, it } from 'vitest';
import type { MachineAnalysis } from '../../../server/core/analysis.ts';
import { placeOfTerminal } from '../../../server/core/circuits/places.ts';
import { reachFrom } from '../../../server/core/circuits/reach-from.ts';
import { solveApart } from '../../../server/core/circuits/solve/solved.ts';
import {
  fusesOf,
  type Reach,
  reachOf,
  slotsTo,
  wayAt,
  wayNetOf,
  waysOf,
} from '../../../server/core/circuits/ways.ts';
import type { Machine } from '../../../server/core/model/resolve.ts';
import { factBy } from '../../../server/core/reuse/fact.ts';
import { randomFrom } from '../../support/random.ts';
import { benchMachine } from './bench-parts.ts';
import { wireOtherwise, withSheets } from './call-otherwise.ts';
import { randomMachine } from './random-machine.ts';
import { analyse, openBench } from './versions.ts';

/*
 * What is reached from where is taken over from version to version while nothing that is reached is joined otherwise. It is
 * what would be found of the text if it were new, whatever links are put in above it and whatever parts come to be called.
 */

const MACHINES = 16;
const EDITS = 20;

/** All that is reached from each terminal, with the ways to it, by names. */
function reachesOf({ machine }: MachineAnalysis): ReadonlyMap<string, unknown> {
  const [net, ways] = [wayNetOf(machine), waysOf(machine)];
  const nameOf = (place: number) => net.terminals[place] ?? '';
  const sayWay = (slot: object) => {
    const way = wayAt(ways, slot);
    return way?.link ? `${way.link.from.id} -> ${way.link.to.id}` : way?.inside?.circuit.name;
  };
  return new Map(
    net.terminals.flatMap((name, start) =>
      name === ''
        ? []
        : [true, false].map((closed): [string, unknown] => {
            const reach = reachOf(net, start, closed);
            const reached = reach.order.map((place) => [nameOf(place), slotsTo(reach, place)?.map(sayWay)]);
            return [`${name} ${closed}`, reached];
          }),
    ),
  );
}

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'in small machine %i as much is reached after each edit as if it were new',
  (seed) => {
    const random = randomFrom(seed);
    let text = withSheets(randomMachine(random));
    const fettle = openBench();
    let [reached, kept] = [0, 0];
    let before = new Set<unknown>();
    for (let each = 0; each < EDITS && text.match(/ -> /g)?.length !== 1; each++) {
      const analysis = analyse(fettle, text);
      const reaches = reachesOf(analysis);
      expect(reaches, text).toEqual(solveApart(() => reachesOf(analyse(openBench(), text))));
      const net = wayNetOf(analysis.machine);
      const now = new Set(net.terminals.map((_, start) => reachOf(net, start)));
      reached += now.size;
      kept += [...now].filter((reach) => before.has(reach)).length;
      before = now;
      text = wireOtherwise(text, random);
    }
    expect(reached).toBeGreaterThan(0);
    expect(kept).toBeGreaterThan(reached / 10);
  },
);

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'in small machine %i whoever asks for one reach has that of this version, and is seldom asked again',
  (seed) => {
    const random = randomFrom(seed);
    let worked = 0;
    const fromTerminal = factBy('machine', (machine: Machine, name: string): readonly Reach[] => {
      worked++;
      const dot = name.indexOf('.');
      const place = placeOfTerminal(machine, name.slice(0, dot), name.slice(dot + 1));
      return place === undefined ? [] : [true, false].map((closed) => reachFrom(machine, place, closed));
    });
    let text = withSheets(randomMachine(random));
    const fettle = openBench();
    let asked = 0;
    for (let each = 0; each < EDITS && text.match(/ -> /g)?.length !== 1; each++) {
      const { machine } = analyse(fettle, text);
      const net = wayNetOf(machine);
      // Of some versions nothing is asked, and of others not everything.
      const share = random.below(3);
      for (const name of net.terminals) {
        if (name === '' || random.below(2) >= share) continue;
        asked++;
        const reaches = fromTerminal(machine, name);
        const place = net.placeOf.get(name) ?? -1;
        expect(reaches.length).toBe(2);
        for (const [which, closed] of [true, false].entries())
          expect(reaches[which], `${name} ${closed}\n${text}`).toBe(reachOf(net, place, closed));
      }
      text = wireOtherwise(text, random);
    }
    expect(asked).toBeGreaterThan(0);
    expect(worked).toBeLessThan(asked);
  },
);

describe('of two wires that have nothing to do with one another', () => {
  const machine = (...links: string[]) =>
    [
      'fettle: 1',
      'machine: Two wires',
      'parts:',
      '  a: { sheet: contact.part.yaml }',
      '  b: { sheet: contact.part.yaml }',
      'wiring:',
      ...links.map((link) => `  - ${link}`),
      '',
    ].join('\n');

  it('one stays reached as it was while the other is led on', () => {
    const fettle = openBench();
    const look = (text: string) => {
      const { machine: now } = analyse(fettle, text);
      const net = wayNetOf(now);
      return ['strip.1', 'row.1'].map((name) => reachOf(net, net.placeOf.get(name) ?? -1));
    };
    const [strip, row] = look(machine('strip.1 -> strip.2', 'row.1 -> row.2'));
    const [again, led] = look(machine('strip.1 -> strip.2', 'row.1 -> row.2', 'row.2 -> row.3'));
    expect(again).toBe(strip);
    expect(led).not.toBe(row);
    expect([row?.order.length, led?.order.length]).toEqual([2, 3]);
  });
});

describe('through a fuse and a contact in a row', () => {
  const machine = (fuse = '{ sheet: fuse.part.yaml }') =>
    withSheets(
      benchMachine(['fuse', 'open'], ['strip.1 -> fuse.A', 'fuse.B -> open.A', 'open.B -> row.1']),
    ).replace('{ sheet: fuse.part.yaml }', fuse);

  it('all is reached, unless it is said that contacts do not count', () => {
    const net = wayNetOf(analyse(openBench(), machine()).machine);
    const reachedFrom = (name: string, closed?: boolean) =>
      reachOf(net, net.placeOf.get(name) ?? -1, closed).order.map((place) => net.terminals[place]);
    const way = ['strip.1', 'fuse.A', 'fuse.B', 'open.A', 'open.B', 'row.1'];
    expect(reachedFrom('strip.1')).toEqual(way);
    expect(reachedFrom('row.1')).toEqual(way.toReversed());
    expect(reachedFrom('strip.1', false)).toEqual(way.slice(0, 4));
    expect(reachedFrom('row.1', false)).toEqual(['row.1', 'open.B']);
  });

  it('the fuse is that of the present version, also where nobody asked for it before', () => {
    const fettle = openBench();
    // The net is laid over the parts of the first version, and stays as it is.
    wayNetOf(analyse(fettle, machine()).machine);
    for (const type of ['type: short', 'type: long', '']) {
      const { machine: now } = analyse(fettle, machine(`{ sheet: fuse.part.yaml, ${type} }`));
      expect(fusesOf(now).map(({ inside }) => inside?.part)).toEqual([now.parts.get('fuse')]);
      const circuits = waysOf(now).all.flatMap(({ inside }) => inside ?? []);
      expect(circuits.map(({ part }) => part)).toEqual([now.parts.get('fuse'), now.parts.get('open')]);
    }
  });
});
