import { waysOf } from '../circuits/ways.ts';
import { later } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { factMap } from '../reuse/fact-map.ts';
import { formatBest } from '../units/index.ts';
import { constantInput } from './collect.ts';
import type { Recipe } from './derived.ts';
import { rename } from './input.ts';
import { type Draw, isSameDraw, loadWays, motorDraws } from './wire-draws.ts';
import { resistorDraws } from './wire-resistors.ts';
import { solvedCurrents } from './wire-solved.ts';

/** A current, and how it was found. */
export type Flow = Pick<Recipe, 'formula' | 'inputs' | 'si' | 'source'>;

const SOLVED = later`operating point of the circuit by Kirchhoff's laws, in the state in which it carries most`;
const SUMMED = later`the sum of what flows through it at most; drives at two thirds of the set phase current, RMS (common practice, no source)`;

/** Everything that the flow through a way is made of. */
interface Made {
  /** True where something draws through it of which nobody knows how much. */
  readonly isUnknown: boolean;
  /** The most that flows in it as solved, in A. */
  readonly inWire: number | undefined;
  readonly draws: readonly Draw[];
}

/** By the slot of the way. */
const madeOf = factMap<Machine, object, Made>('machine', gatherDraws, isSameMade);

/** What flows through a link, fuse or contact at most, by its slot; undefined where nothing is known to. */
export function flowThrough(machine: Machine, slot: object): Flow | undefined {
  const made = madeOf.get(machine, slot);
  if (!made || made.isUnknown) return undefined;
  const sum = made.draws.length > 0 ? sumOf(made.draws) : undefined;
  if (made.inWire === undefined || (sum && sum.si >= made.inWire)) return sum;
  const input = constantInput(later`largest current of its circuit`, made.inWire, showAmps);
  return { formula: `{${input.name}}`, inputs: [input], si: made.inWire, source: SOLVED };
}

function gatherDraws(machine: Machine): ReadonlyMap<object, Made> {
  const loads = loadWays(machine);
  const solved = solvedCurrents(machine);
  const made = new Map<object, { isUnknown: boolean; inWire: number | undefined; draws: Draw[] }>();
  const at = (slot: object) => {
    let there = made.get(slot);
    if (!there) {
      there = { isUnknown: false, inWire: undefined, draws: [] };
      made.set(slot, there);
    }
    return there;
  };
  for (const { path, draw } of loads) if (!draw) for (const slot of path) at(slot).isUnknown = true;
  for (const draw of [
    ...loads.flatMap(({ draw: each }) => each ?? []),
    ...motorDraws(machine),
    ...resistorDraws(machine),
    ...solved.draws,
  ])
    for (const [step, slot] of draw.path.entries())
      if (draw.path.indexOf(slot) === step) at(slot).draws.push(draw);
  if (solved.inWires.size > 0)
    for (const { id, slot } of waysOf(machine).all) {
      const amps = solved.inWires.get(id);
      if (amps !== undefined) at(slot).inWire = amps;
    }
  return made;
}

function isSameMade(a: Made, b: Made): boolean {
  return (
    a.isUnknown === b.isUnknown &&
    a.inWire === b.inWire &&
    a.draws.length === b.draws.length &&
    a.draws.every((draw, place) => isSameDraw(draw, b.draws[place]))
  );
}

function sumOf(draws: readonly Draw[]): Flow {
  // Several draws of one name, such as both ends of a circuit, stay apart in the formula.
  const used = new Map<string, number>();
  const terms: string[] = [];
  const inputs = draws.map(({ term, input }) => {
    const count = (used.get(input.name) ?? 0) + 1;
    used.set(input.name, count);
    if (count === 1) {
      terms.push(term);
      return input;
    }
    const name = `${input.name} (${count})`;
    terms.push(term.replace(`{${input.name}}`, `{${name}}`));
    return rename(input, name);
  });
  return {
    formula: terms.join(' + '),
    inputs,
    si: draws.reduce((sum, { amps }) => sum + amps, 0),
    source: SUMMED,
  };
}

function showAmps(amps: number): string {
  return formatBest(amps, 'current', 4);
}
