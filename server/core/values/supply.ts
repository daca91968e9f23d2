import { type Feed, feedsOf } from '../circuits/supply.ts';
import { say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { type Collector, inputOf, keyedInput } from './collect.ts';
import type { Input } from './derived.ts';
import { section } from './piece.ts';

/** The voltage that reaches each load. A load that two supplies reach has no single one; the wiring findings say so. */
export const deriveSupplies = section(addSupplies);

function addSupplies(machine: Machine, out: Collector): void {
  const feeds = feedsOf(machine);
  const byLoad = new Map<string, Feed[]>();
  for (const feed of feeds) {
    const there = byLoad.get(feed.load.part.name);
    if (there) there.push(feed);
    else byLoad.set(feed.load.part.name, [feed]);
  }
  for (const [name, reached] of byLoad) {
    const [feed, ...others] = reached;
    const input = feed && supplyVoltage(machine, feed);
    if (!input || others.some((other) => other.supply.part !== feed.supply.part)) continue;
    out.add({
      address: `parts.${name}.supply-voltage`,
      unit: 'V',
      formula: `{${input.name}}`,
      inputs: [input],
      si: input.value,
      source: say`traced through the wiring from plus to plus and minus to minus; wires taken as ideal`,
    });
  }
}

/** What a supply gives: as trimmed by its `output-voltage` setting, or by its datasheet. */
export function supplyVoltage(machine: Machine, { supply }: Feed): Input | undefined {
  const name = say`voltage of ${supply.part.name}`;
  const keyed = keyedInMeaning(machine.file, supply.part, 'output-voltage');
  const trimmed = keyedInput(name, keyed);
  // A setting that cannot be read says something, if nobody knows what.
  if (trimmed || keyed?.origin === 'set') return trimmed;
  const given = supply.circuit.figures.quantity('voltage');
  return given && supply.part.sheet ? inputOf(name, given, supply.part.sheet.file) : undefined;
}
