import type { SolvedInput } from './inputs.ts';

/**
 * What the machine would believe after a fault: seen at once, because something reads as if it had been operated (or
 * stops); seen at the next use, because what should happen then does not; or not seen, because the next use is the one
 * that matters. `harmless` faults change nothing.
 */
export type Verdict = 'at-once' | 'next-use' | 'not-seen' | 'harmless' | 'unknown';

/** Nobody tries these out: their next use is the moment in which they are needed. */
const GUARDS: ReadonlySet<string> = new Set(['limit', 'home', 'emergency-stop', 'alarm', 'probe']);

/** These must not stay on by themselves. */
const DRIVES: ReadonlySet<string> = new Set(['enable', 'spindle run', 'spindle reverse']);

/**
 * Judges a fault by whether the function acts at rest and when operated, healthy and with the fault.
 * @param acts with the fault; undefined where the level is uncertain
 */
export function judgeFault(
  { at, acts: healthyRest, operations }: SolvedInput,
  acts: { readonly rest: boolean | undefined; readonly operated: boolean | undefined },
): Verdict {
  const healthyOperated = operations[0]?.acts;
  if (healthyRest === undefined || healthyOperated === undefined) return 'unknown';
  if (acts.rest === undefined) return 'unknown';
  if (acts.rest !== healthyRest) return 'at-once';
  if (acts.operated === healthyOperated) return 'harmless';
  const word = at.circuit.does?.word ?? '';
  // It stays as it is at rest, whatever is done: a guard that never acts, or a drive that never stops.
  const isDrive = DRIVES.has(word) || at.circuit.kind === 'coil';
  return (healthyRest ? isDrive : GUARDS.has(word)) ? 'not-seen' : 'next-use';
}
