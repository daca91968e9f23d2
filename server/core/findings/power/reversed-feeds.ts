import type { MachineAnalysis } from '../../analysis.ts';
import { placeOfEnd } from '../../circuits/places.ts';
import { reachFromEnd } from '../../circuits/reach-from.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { loadsByPlus } from './loads-by-plus.ts';

/** A load whose plus hangs on the minus of a supply, and its minus on the plus. */
export interface Reversed {
  readonly load: CircuitAt;
  readonly supply: CircuitAt;
}

/** The loads and sensors that are wired the wrong way round, through links, fuses and contacts. */
export const reversedFeeds = fact('analysis', (analysis: MachineAnalysis): readonly Reversed[] =>
  reversedOn(analysis).flat(),
);

/** By supply: those that hang on it. */
const reversedOn = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => circuitsOfKind(machine, 'power-out'),
  ({ machine, feeds }: MachineAnalysis, supply): readonly Reversed[] => {
    const [fromPlus, fromMinus] = [0, 1].map((index) => reachFromEnd(machine, supply, index));
    if (!fromPlus || !fromMinus) return [];
    const isReversed = (load: CircuitAt) => {
      const end = placeOfEnd(machine, load, 1);
      if (load.part === supply.part || end === undefined || !fromPlus.by.has(end)) return false;
      return !feeds.some((feed) => feed.load.part === load.part && feed.load.circuit === load.circuit);
    };
    const byPlus = loadsByPlus.all(machine);
    const found: Reversed[] = [];
    // Nearly all that a supply reaches is no plus of a load.
    for (const place of fromMinus.order)
      for (const load of byPlus.get(place) ?? NONE) if (isReversed(load)) found.push({ load, supply });
    return found;
  },
);

const NONE: readonly CircuitAt[] = [];
