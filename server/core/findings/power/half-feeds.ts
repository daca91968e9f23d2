import type { MachineAnalysis } from '../../analysis.ts';
import { placeOfEnd } from '../../circuits/places.ts';
import { reachFromEnd } from '../../circuits/reach-from.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { slotsTo, wayAt, waysOf } from '../../circuits/ways.ts';
import { groupBy } from '../../group.ts';
import type { End } from '../../model/link.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import type { Input } from '../../values/derived.ts';
import { supplyVoltage } from '../../values/supply.ts';
import { isFaulty } from '../common/held-back.ts';
import { isOutside, type Taken, voltageTaken } from '../common/voltage.ts';
import { suppliesInConflict } from '../wiring/rail-conflicts.ts';
import { loadsByPlus } from './loads-by-plus.ts';

/** A load whose plus hangs on one supply, and its minus on another that has nothing in common with it. */
export interface HalfFeed {
  readonly load: CircuitAt;
  readonly supply: CircuitAt;
  /** The supply on whose minus it hangs. */
  readonly other: CircuitAt;
}

/** The loads and sensors that hang between two supplies, through links, fuses and contacts. */
export const halfFeeds = fact('analysis', (analysis: MachineAnalysis): readonly HalfFeed[] =>
  halfFedBy(analysis).flat(),
);

/** By supply: the loads on its plus that it does not feed. */
const halfFedBy = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => circuitsOfKind(machine, 'power-out'),
  ({ machine, feeds }: MachineAnalysis, supply): readonly HalfFeed[] => {
    const [fromPlus, fromMinus] = [0, 1].map((index) => reachFromEnd(machine, supply, index));
    if (!fromPlus || !fromMinus) return [];
    const byPlus = loadsByPlus.all(machine);
    const found: HalfFeed[] = [];
    for (const place of fromPlus.order) {
      for (const load of byPlus.get(place) ?? NONE) {
        const end = placeOfEnd(machine, load, 1);
        if (load.part === supply.part || end === undefined || fromMinus.by.has(end)) continue;
        if (feeds.some((feed) => feed.load.part === load.part && feed.load.circuit === load.circuit))
          continue;
        const others = circuitsOfKind(machine, 'power-out').filter(
          (each) => each.part !== load.part && reachFromEnd(machine, each, 1)?.by.has(end),
        );
        const other = others.find(({ part }) => part.sheet?.partClass === 'supply') ?? others[0];
        if (other) found.push({ load, supply, other });
      }
    }
    return found;
  },
);

const NONE: readonly CircuitAt[] = [];

/** What hangs between a supply and others, of which some would not bear its voltage. */
export interface ForeignVoltage {
  readonly supply: CircuitAt;
  readonly voltage: Input;
  readonly wrong: readonly (HalfFeed & { readonly taken: Taken })[];
  /** Those that would bear it, and hang between the supplies by the same mistake. */
  readonly beside: readonly HalfFeed[];
}

/** The supplies whose plus comes to something that would not bear it, if it had its minus there as well. */
export const foreignVoltages = fact('analysis', (analysis: MachineAnalysis): readonly ForeignVoltage[] => {
  const conflicting = suppliesInConflict(analysis);
  const bySupply = groupBy(halfFeeds(analysis), ({ supply }) => supply);
  return [...bySupply].flatMap(([supply, feeds]): ForeignVoltage[] => {
    const voltage = supplyVoltage(analysis.machine, { supply });
    if (!voltage || conflicting.has(supply.part.name) || (voltage.at && isFaulty(analysis, voltage.at)))
      return [];
    const wrong = feeds.flatMap((feed) => {
      const taken = voltageTaken(feed.load);
      return taken && isOutside(voltage.value, taken) ? [{ ...feed, taken }] : [];
    });
    const beside = feeds.filter(({ load }) => wrong.every((each) => each.load !== load));
    return wrong.length > 0 ? [{ supply, voltage, wrong, beside }] : [];
  });
});

/** The parts that hang between two supplies by a mistake that is told: what they do, or fail to do, follows from it. */
export const partsBetween = fact(
  'analysis',
  (analysis: MachineAnalysis): ReadonlySet<string> =>
    new Set(
      foreignVoltages(analysis).flatMap(({ wrong, beside }) =>
        [...wrong, ...beside].map(({ load }) => load.part.name),
      ),
    ),
);

/**
 * Where the supply comes to all that it should not, as the nearer end of a link: the last one on their common way that
 * branches off from something else, or else the last of all.
 */
export function whereItComes(
  { machine, nets }: MachineAnalysis,
  { supply, wrong, beside }: ForeignVoltage,
): End | undefined {
  const reach = reachFromEnd(machine, supply, 0);
  if (!reach) return undefined;
  const ways = waysOf(machine);
  const [first = [], ...others] = [...wrong, ...beside].map(({ load }) =>
    (slotsTo(reach, placeOfEnd(machine, load, 0) ?? -1) ?? []).flatMap(
      (slot) => wayAt(ways, slot)?.link ?? [],
    ),
  );
  const distance = ({ id }: End) => reach.order.indexOf(ways.placeOf.get(id) ?? -1);
  const common = first
    .filter((link) => others.every((links) => links.includes(link)))
    .map(({ from, to }) => (distance(from) < distance(to) ? from : to));
  return common.findLast(({ id }) => nets.linksAt(id).length > 1) ?? common.at(-1);
}
