import { type Feed, feedsOf } from '../circuits/supply.ts';
import { groupBy } from '../group.ts';
import { say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { fact } from '../reuse/fact.ts';
import { factMap } from '../reuse/fact-map.ts';
import { isSameList } from '../same-list.ts';
import { type Collector, inputOf, keyedInput } from './collect.ts';
import type { Input } from './derived.ts';
import { sectionOver } from './piece.ts';

/** By the name of a part: how it is fed. */
const feedsByPart = factMap<Machine, string, readonly Feed[]>(
  'machine',
  (machine) => groupBy(feedsOf(machine), ({ load }) => load.part.name),
  isSameList,
);

const feedsOfEach = fact('machine', (machine: Machine): readonly (readonly Feed[])[] => [
  ...feedsByPart.all(machine).values(),
]);

/** The voltage that reaches each load. A load that two supplies reach has no single one; the wiring findings say so. */
export const deriveSupplies = sectionOver(feedsOfEach, addSupply);

function addSupply(machine: Machine, [feed, ...others]: readonly Feed[], out: Collector): void {
  const input = feed && supplyVoltage(machine, feed);
  if (!input || others.some((other) => other.supply.part !== feed.supply.part)) return;
  out.add({
    address: `parts.${feed.load.part.name}.supply-voltage`,
    unit: 'V',
    formula: `{${input.name}}`,
    inputs: [input],
    si: input.value,
    source: say`traced through the wiring from plus to plus and minus to minus; wires taken as ideal`,
  });
}

/** What a supply gives: as trimmed by its `output-voltage` setting, or by its datasheet. */
export function supplyVoltage(machine: Machine, { supply }: Pick<Feed, 'supply'>): Input | undefined {
  const name = say`voltage of ${supply.part.name}`;
  const keyed = keyedInMeaning(machine.file, supply.part, 'output-voltage');
  const trimmed = keyedInput(name, keyed);
  // A setting that cannot be read says something, if nobody knows what.
  if (trimmed || keyed?.origin === 'set') return trimmed;
  const given = supply.circuit.figures.quantity('voltage');
  return given && supply.part.sheet ? inputOf(name, given, supply.part.sheet.file) : undefined;
}
