import type { MachineAnalysis } from '../../analysis.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import { fact } from '../../reuse/fact.ts';
import { partsBetween } from '../power/half-feeds.ts';
import { reversedFeeds } from '../power/reversed-feeds.ts';
import { strayMains } from '../power/stray-mains.ts';
import { wrongVoltages } from '../power/wrong-voltages.ts';
import { findUnconnected } from '../wiring/needed.ts';
import { isFaulty } from './held-back.ts';

/** Why a part has no supply, of the ways in which a terminal can be missing. */
const UNFED: ReadonlySet<string> = new Set(['supply', 'return', 'sensor']);

/**
 * The parts that have no supply, one of the wrong voltage, or one that is the wrong way round. That is the mistake; what
 * they do to others, and what their inputs see, follows from it.
 */
export const badlyFed = fact('analysis', (analysis: MachineAnalysis): ReadonlySet<string> => {
  return new Set([
    ...wrongVoltages(analysis).flatMap(({ feeds }) => feeds.map(({ load }) => load.part.name)),
    ...partsBetween(analysis),
    ...reversedFeeds(analysis).map(({ load }) => load.part.name),
    ...strayMains(analysis).map(({ end }) => end.part.name),
    ...findUnconnected(analysis)
      .filter(({ why }) => UNFED.has(why))
      .map(({ part }) => part.name),
  ]);
});

/** The supplies that suit none of their loads, or are set to something that they cannot give, by name. */
const wrongSupplies = fact('analysis', (analysis: MachineAnalysis): ReadonlySet<string> => {
  const unsuited = wrongVoltages(analysis).filter(({ suitsNone }) => suitsNone);
  const misset = circuitsOfKind(analysis.machine, 'power-out').filter(({ part }) => {
    const keyed = keyedInMeaning(analysis.machine.file, part, 'output-voltage');
    return keyed !== undefined && isFaulty(analysis, keyed.scalar);
  });
  return new Set([...unsuited.map(({ supply }) => supply.part.name), ...misset.map(({ part }) => part.name)]);
});

/** Whether something in the circuit of an input hangs on the plus of such a supply. */
export function hangsOnWrongSupply(analysis: MachineAnalysis, { group, solution }: SolvedInput): boolean {
  const parts = wrongSupplies(analysis);
  if (parts.size === 0) return false;
  const { board } = solution.circuit;
  return group.elements.some((element) =>
    (board.endsOf[element] ?? []).some((end) =>
      (board.supplyEndsOn.get(board.nodeOf[end] ?? -1) ?? []).some(
        ({ supply, terminal }) => terminal === supply.plus && parts.has(supply.at.part.name),
      ),
    ),
  );
}
