import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { placeOfEnd, reachOf, wayNetOf } from '../../circuits/ways.ts';
import { groupBy } from '../../group.ts';
import { fact } from '../../reuse/fact.ts';

/** A load whose plus hangs on the minus of a supply, and its minus on the plus. */
export interface Reversed {
  readonly load: CircuitAt;
  readonly supply: CircuitAt;
}

/** The loads and sensors that are wired the wrong way round, through links, fuses and contacts. */
export const reversedFeeds = fact('analysis', findReversed);

function findReversed({ machine, feeds }: MachineAnalysis): Reversed[] {
  const ways = wayNetOf(machine);
  const loads = ['power-in', 'sensor'].flatMap((kind) => circuitsOfKind(machine, kind));
  const byPlus = groupBy(loads, (load) => placeOfEnd(ways, load, 0));
  return circuitsOfKind(machine, 'power-out').flatMap((supply) => {
    const [plus, minus] = [0, 1].map((index) => placeOfEnd(ways, supply, index));
    if (plus === undefined || minus === undefined) return [];
    const fromPlus = reachOf(ways, plus).by;
    return reachOf(ways, minus)
      .order.flatMap((place) => byPlus.get(place) ?? [])
      .filter((load) => {
        const end = placeOfEnd(ways, load, 1);
        const isFed = feeds.some(
          (feed) => feed.load.part === load.part && feed.load.circuit === load.circuit,
        );
        return load.part !== supply.part && !isFed && end !== undefined && fromPlus.has(end);
      })
      .map((load) => ({ load, supply }));
  });
}
