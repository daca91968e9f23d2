import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { Feed } from '../../circuits/supply.ts';
import { groupBy } from '../../group.ts';
import { fact } from '../../reuse/fact.ts';
import type { Input } from '../../values/derived.ts';
import { supplyVoltage } from '../../values/supply.ts';
import { isFaulty } from '../common/held-back.ts';
import { isOutside, type Taken, voltageTaken } from '../common/voltage.ts';
import { suppliesInConflict } from '../wiring/rail-conflicts.ts';

/** Loads that one supply feeds with a voltage that they do not take. */
export interface WrongVoltage {
  readonly supply: CircuitAt;
  readonly voltage: Input;
  /** True where none of the loads of the supply takes its voltage. */
  readonly suitsNone: boolean;
  readonly feeds: readonly (Feed & { readonly taken: Taken })[];
}

/** The supplies that give something what it does not take, in the order in which the loads are fed. */
export const wrongVoltages = fact('analysis', (analysis: MachineAnalysis): readonly WrongVoltage[] => {
  // Two parts of one sheet share its circuits, so the part counts as well.
  const bySupply = groupBy(analysis.feeds, ({ supply }) => `${supply.part.name}.${supply.circuit.name}`);
  // What supplies give that are shorted or joined to others is not what their sheets say.
  const conflicting = suppliesInConflict(analysis);
  return [...bySupply.values()].flatMap((feeds) =>
    conflicting.has(feeds[0]?.supply.part.name ?? '') ? [] : (judge(analysis, feeds) ?? []),
  );
});

function judge(analysis: MachineAnalysis, feeds: readonly Feed[]): WrongVoltage | undefined {
  const [first] = feeds;
  const voltage = first && supplyVoltage(analysis.machine, first);
  if (!voltage || (voltage.at && isFaulty(analysis, voltage.at))) return undefined;
  const wrong = feeds.flatMap((feed) => {
    const taken = voltageTaken(feed.load);
    return taken && feed.link && isOutside(voltage.value, taken) ? [{ ...feed, taken }] : [];
  });
  if (wrong.length === 0) return undefined;
  return {
    supply: first.supply,
    voltage,
    suitsNone: wrong.length === feeds.length,
    feeds: wrong,
  };
}
