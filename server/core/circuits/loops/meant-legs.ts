import { terminalId } from '../../model/terminal-id.ts';
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
  const isWired = (terminal: string) =>
    (conductors.at[conductors.placeOf.get(terminal) ?? -1] ?? []).some(
      (place) => conductors.all[place]?.link !== undefined,
    );
  const uses = countUses(legs);
  const working = new Set(legs.flatMap(({ at }, index) => (idle[index] ? [] : at)));
  return legs.filter(({ at, to }, index) => {
    if (!idle[index] || !at || at.circuit.kind === 'power-out') return false;
    const { part, circuit } = at;
    const ends = circuit.ends.map((end) => terminalId(part.name, end.text));
    if (LOADS.has(circuit.kind)) return ends.some(isWired);
    if (SIGNALS.has(circuit.kind)) return isWired(ends[0] ?? '');
    if (circuit.kind === 'changeover') {
      const [, ...throws] = ends;
      if (working.has(at) || (throws.some(isWired) && !isWired(ends[to] ?? ''))) return false;
    }
    const own = ends.filter((end) => uses.get(end) === 1);
    return (own.length > 0 ? own : ends).some(isWired);
  });
}

/** How many circuits end on each terminal. */
function countUses(legs: readonly Leg[]): Map<string, number> {
  const uses = new Map<string, number>();
  for (const at of new Set(legs.map((leg) => leg.at))) {
    for (const end of at?.circuit.ends ?? []) {
      const terminal = terminalId(at?.part.name ?? '', end.text);
      uses.set(terminal, (uses.get(terminal) ?? 0) + 1);
    }
  }
  return uses;
}
