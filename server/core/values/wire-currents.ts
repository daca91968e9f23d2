import { type Feed, feedsOf } from '../circuits/supply.ts';
import { waysOf } from '../circuits/ways.ts';
import { later } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { formatBest } from '../units/index.ts';
import { constantInput } from './collect.ts';
import type { Recipe } from './derived.ts';
import { type Draw, type LoadWay, loadWays, motorDraws } from './wire-draws.ts';
import { resistorDraws } from './wire-resistors.ts';
import { solvedCurrents } from './wire-solved.ts';

/** What flows where, at most. */
export interface Currents {
  /** How each load is fed. */
  readonly loads: readonly LoadWay[];
  /** What flows through a way (by its place), as a recipe without address and unit; undefined where nothing is known to. */
  readonly through: (place: number) => Flow | undefined;
  /** Everything that the flow through a way is made of; the same while it is. */
  readonly madeOf: (place: number) => readonly unknown[];
}

/** A current, and how it was found. */
export type Flow = Pick<Recipe, 'formula' | 'inputs' | 'si' | 'source'>;

const SOLVED = later`operating point of the circuit by Kirchhoff's laws, in the state in which it carries most`;
const SUMMED = later`the sum of what flows through it at most; drives at two thirds of the set phase current, RMS (common practice, no source)`;

/** The currents in all links, fuses and contacts of a machine. */
export const currentsIn = fact('machine', (machine: Machine) => findCurrents(machine, feedsOf(machine)));

function findCurrents(machine: Machine, feeds: readonly Feed[]): Currents {
  const loads = loadWays(machine, feeds);
  const solved = solvedCurrents(machine);
  const ways = waysOf(machine);
  const byWay = new Map<number, Draw[]>();
  const unknown = new Set<number>();
  for (const { path, draw } of loads) if (!draw) for (const place of path) unknown.add(place);
  for (const draw of [
    ...loads.flatMap(({ draw: each }) => each ?? []),
    ...motorDraws(machine),
    ...resistorDraws(machine),
    ...solved.draws,
  ]) {
    for (const place of new Set(draw.path)) {
      const there = byWay.get(place);
      if (there) there.push(draw);
      else byWay.set(place, [draw]);
    }
  }
  const solvedIn = (place: number) => solved.inWires.get(ways.all[place]?.id ?? ways);
  return {
    loads,
    madeOf: (place) => [unknown.has(place), solvedIn(place), ...(byWay.get(place) ?? [])],
    through: (place) => {
      if (unknown.has(place)) return undefined;
      const draws = byWay.get(place);
      const sum = draws && sumOf(draws);
      const inWire = solvedIn(place);
      if (inWire === undefined || (sum && sum.si >= inWire)) return sum;
      const input = constantInput(later`largest current of its circuit`, inWire, showAmps);
      return { formula: `{${input.name}}`, inputs: [input], si: inWire, source: SOLVED };
    },
  };
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
    return { ...input, name };
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
