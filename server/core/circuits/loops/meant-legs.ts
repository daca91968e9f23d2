import type { Board } from '../solve/board.ts';
import type { Leg } from './lay-legs.ts';

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
 * The idle legs that somebody meant to be used: a terminal that belongs to their circuit alone is wired. Outputs,
 * inputs and contacts that nobody uses have theirs free, and one side of a changeover contact often is.
 */
export function meantLegs(board: Board, legs: readonly Leg[], idle: Uint8Array): Leg[] {
  const { conductors } = board;
  const isWired = (terminal: number | undefined) =>
    (conductors.at[terminal ?? -1] ?? []).some((place) => conductors.all[place]?.link !== undefined);
  const uses = countUses(legs, conductors.terminals.length);
  const working = new Set<Leg['at']>();
  for (const [index, { at }] of legs.entries())
    if (!idle[index] && at?.circuit.kind === 'changeover') working.add(at);
  return legs.filter(({ at, to, ends }, index) => {
    if (!idle[index] || !at || at.circuit.kind === 'power-out') return false;
    const { kind } = at.circuit;
    if (LOADS.has(kind)) return ends.some(isWired);
    if (SIGNALS.has(kind)) return isWired(ends[0]);
    if (kind === 'changeover') {
      const [, ...throws] = ends;
      if (working.has(at) || (throws.some(isWired) && !isWired(ends[to]))) return false;
    }
    const own = ends.filter((end) => uses[end] === 1);
    return (own.length > 0 ? own : ends).some(isWired);
  });
}

/** How many circuits end on each terminal. */
function countUses(legs: readonly Leg[], terminals: number): Uint16Array {
  const uses = new Uint16Array(terminals);
  let last: Leg['at'];
  for (const { at, ends } of legs) {
    // The legs of one circuit follow one another.
    if (at === last) continue;
    last = at;
    for (const end of ends) uses[end] = (uses[end] ?? 0) + 1;
  }
  return uses;
}
