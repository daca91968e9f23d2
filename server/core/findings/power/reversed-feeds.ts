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

const NONE: readonly CircuitAt[] = [];

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
    const isReversed = (load: CircuitAt) => {
      const end = placeOfEnd(ways, load, 1);
      if (load.part === supply.part || end === undefined || !fromPlus.has(end)) return false;
      return !feeds.some((feed) => feed.load.part === load.part && feed.load.circuit === load.circuit);
    };
    const found: Reversed[] = [];
    // Nearly all that a supply reaches is no plus of a load.
    for (const place of reachOf(ways, minus).order)
      for (const load of byPlus.get(place) ?? NONE) if (isReversed(load)) found.push({ load, supply });
    return found;
  });
}
