import type { Leg } from './lay-legs.ts';
import type { Ground } from './region.ts';
import { sitesOf } from './sites.ts';

/** Circuits that feed the whole part, and are meant to work as soon as anything is joined to them. */
const LOADS: ReadonlySet<string> = new Set(['power-in', 'mains-in']);

/** Circuits whose first end carries the signal; the others are the return or the supply of the part. */
const SIGNALS: ReadonlySet<string> = new Set([
  'sink-out',
  'source-out',
  'push-pull-out',
  'pulled-up-in',
  'pulled-down-in',
  'analog-out',
  'analog-in',
]);

/**
 * The places of the idle legs that somebody meant to be used: a terminal that belongs to their circuit alone is wired. Outputs,
 * inputs and contacts that nobody uses have theirs free, and one side of a changeover contact often is.
 */
export function meantLegs({ conductors }: Ground, legs: readonly Leg[], idle: Uint8Array): number[] {
  const { at: sitesAt } = sitesOf(conductors.frame);
  const isWired = (terminal: number | undefined) =>
    (conductors.at[terminal ?? -1] ?? []).some((place) => conductors.all[place]?.link !== undefined);
  const working = new Set<Leg['at']>();
  for (const [index, { at }] of legs.entries())
    if (!idle[index] && at?.circuit.kind === 'changeover') working.add(at);
  const isMeant = ({ at, to, ends }: Leg): boolean => {
    if (!at || at.circuit.kind === 'power-out') return false;
    const { kind } = at.circuit;
    if (LOADS.has(kind)) return ends.some(isWired);
    if (SIGNALS.has(kind)) return isWired(ends[0]);
    if (kind === 'changeover') {
      const [, ...throws] = ends;
      if (working.has(at) || (throws.some(isWired) && !isWired(ends[to]))) return false;
    }
    const own = ends.filter((end) => sitesAt(end).length === 1);
    return (own.length > 0 ? own : ends).some(isWired);
  };
  return [...legs.keys()].filter((place) => idle[place] && isMeant(legs[place] as Leg));
}
