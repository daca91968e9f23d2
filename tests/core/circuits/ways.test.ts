import { describe, expect, it } from 'vitest';
import type { MachineAnalysis } from '../../../server/core/analysis.ts';
import { reachOf, slotsTo, wayAt, wayNetOf, waysOf } from '../../../server/core/circuits/ways.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { callOtherwise, SHEETS, withSheets } from './call-otherwise.ts';
import { randomMachine } from './random-machine.ts';

/*
 * What is reached from where is taken over from version to version while nothing that is reached is joined otherwise. It is
 * what would be found of the text if it were new, whatever links are put in above it and whatever parts come to be called.
 */

const MACHINES = 16;
const EDITS = 20;
const FILE = 'm.machine.yaml';

const open = () => createFettle(worldOf(SHEETS));

function analyse(fettle: Fettle, text: string, file = FILE): MachineAnalysis {
  const analysis = fettle.analyse(file, text);
  if (analysis.kind !== 'machine') throw new Error('not read as a machine');
  return analysis;
}

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

/** Links are put in, taken out and led elsewhere; parts are called otherwise and lose their sheets. */
function edit(text: string, random: Random): string {
  const lines = text.split('\n');
  const links = [...lines.keys()].filter((line) => lines[line]?.includes(' -> '));
  const at = random.oneOf(links);
  switch (random.below(3)) {
    case 0:
      lines.splice(at, 1);
      break;
    case 1:
      lines.splice(at, 0, lines[random.oneOf(links)] ?? '');
      break;
    default:
      return callOtherwise(text, random);
  }
  return lines.join('\n');
}

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'in small machine %i as much is reached after each edit as if it were new',
  (seed) => {
    const random = randomFrom(seed);
    let text = withSheets(randomMachine(random));
    const fettle = open();
    let [reached, kept] = [0, 0];
    let before = new Set<unknown>();
    for (let each = 0; each < EDITS && text.match(/ -> /g)?.length !== 1; each++) {
      const analysis = analyse(fettle, text);
      const reaches = reachesOf(analysis);
      // What was solved last is remembered by file: the text that is new stands in another one.
      expect(reaches, text).toEqual(reachesOf(analyse(open(), text, 'anew.machine.yaml')));
      const net = wayNetOf(analysis.machine);
      const now = new Set(net.terminals.map((_, start) => reachOf(net, start)));
      reached += now.size;
      kept += [...now].filter((reach) => before.has(reach)).length;
      before = now;
      text = edit(text, random);
    }
    expect(reached).toBeGreaterThan(0);
    expect(kept).toBeGreaterThan(reached / 10);
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
    const fettle = open();
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
