import type { Element, Reads } from './element.ts';
import type { Outcome } from './solver.ts';
import type { Solution } from './states.ts';

/** Electrically on or off by its thresholds, or between them, where nobody can tell. */
export type Level = 'on' | 'off' | 'uncertain' | 'unknown';

/** What an input sees in one state. */
export interface Sight {
  /** V or A by its kind; undefined where the circuit has no solution, for which `trouble` gives the reason. */
  readonly value: number | undefined;
  readonly level: Level;
  /** How far it is from the threshold of its level, in its unit; below zero while it is between the thresholds. */
  readonly margin: number | undefined;
  /** True when it gets more than it bears. */
  readonly isTooMuch: boolean;
  readonly trouble: Trouble | undefined;
}

/** Why there is nothing to see. */
export type Trouble =
  | Exclude<Outcome['kind'], 'solved'>
  /** The sheet lacks figures. */
  | 'lacks-figures'
  /** Nothing that conducts ties the input to anything, so its voltage is anybody's guess. */
  | 'floating'
  /** The mains reach it; alternating current is not solved. */
  | 'mains';

/** A sight of nothing, with the reason. */
export const nothing = (trouble: Trouble): Sight => ({
  value: undefined,
  level: 'unknown',
  margin: undefined,
  isTooMuch: false,
  trouble,
});

/** What an input (or a coil) of a solved circuit sees. */
export function readInput(solution: Solution, element: number): Sight {
  const { circuit, composed, outcome } = solution;
  const { board, parts, partOf, touchesMains } = circuit;
  const input = board.elements[element];
  const index = partOf.get(element) ?? -1;
  const part = parts[index];
  if (touchesMains) return nothing('mains');
  if (!input?.reads || !part || input.lacks.length > 0) return nothing('lacks-figures');
  if (outcome.kind !== 'solved') return nothing(outcome.kind);
  const a = part.ends[0] ?? 0;
  const b = part.ends[1] ?? 0;
  const { volts, amps, tied, classes } = outcome;
  if (input.reads.unit === 'A') {
    const start = composed.starts[index] ?? 0;
    const current = part.rest.reduce(
      (sum, branch, at) => sum + (branch.a === a ? 1 : -1) * (amps[start + at] ?? 0),
      0,
    );
    return judge(current, input.reads);
  }
  const isTied = (node: number) => tied[classes.rootOf[node] ?? 0] === true;
  const value = (volts[a] ?? 0) - (volts[b] ?? 0);
  // A voltage that its own resistance does not set either is no voltage to rely on.
  if (isTied(a) !== isTied(b) && !conducts(input)) return nothing('floating');
  return judge(value, input.reads);
}

function conducts(input: Element): boolean {
  return input.rest.some(({ kind }) => kind === 'resistor' || kind === 'source' || kind === 'join');
}

/** Holds a value against the thresholds of an input. */
export function judge(signed: number, reads: Reads): Sight {
  const value = reads.eitherWay ? Math.abs(signed) : signed;
  const isTooMuch = reads.most !== undefined && Math.abs(value) > reads.most;
  const { on, off } = reads;
  if (on === undefined || off === undefined) {
    return { value, level: 'unknown', margin: undefined, isTooMuch, trouble: undefined };
  }
  // Turned round where small values are on, so that one rule serves both.
  const side = reads.below ? -1 : 1;
  const beyondOn = side * (value - on);
  const beyondOff = side * (off - value);
  const level = beyondOn >= 0 ? 'on' : beyondOff >= 0 ? 'off' : 'uncertain';
  const margin = level === 'on' ? beyondOn : level === 'off' ? beyondOff : Math.max(beyondOn, beyondOff);
  return { value, level, margin, isTooMuch, trouble: undefined };
}
