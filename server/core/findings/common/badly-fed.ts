import type { MachineAnalysis } from '../../analysis.ts';
import { reversedFeeds } from '../power/reversed-feeds.ts';
import { strayMains } from '../power/stray-mains.ts';
import { wrongVoltages } from '../power/wrong-voltages.ts';
import { findUnconnected } from '../wiring/needed.ts';

const kept = new WeakMap<MachineAnalysis, ReadonlySet<string>>();

/** Why a part has no supply, of the ways in which a terminal can be missing. */
const UNFED: ReadonlySet<string> = new Set(['supply', 'return', 'sensor']);

/**
 * The parts that have no supply, one of the wrong voltage (and a supply that suits nothing), or one that is the wrong way round. That is the mistake; what
 * they do to others, and what their inputs see, follows from it.
 */
export function badlyFed(analysis: MachineAnalysis): ReadonlySet<string> {
  let parts = kept.get(analysis);
  if (!parts) {
    parts = new Set([
      ...wrongVoltages(analysis).flatMap(({ supply, suitsNone, feeds }) => [
        ...feeds.map(({ load }) => load.part.name),
        ...(suitsNone ? [supply.part.name] : []),
      ]),
      ...reversedFeeds(analysis).map(({ load }) => load.part.name),
      ...strayMains(analysis).map(({ end }) => end.part.name),
      ...findUnconnected(analysis)
        .filter(({ why }) => UNFED.has(why))
        .map(({ part }) => part.name),
    ]);
    kept.set(analysis, parts);
  }
  return parts;
}
