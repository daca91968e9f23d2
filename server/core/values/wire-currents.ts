import { later } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { type FactIndex, factIndex, factKeys } from '../reuse/fact-index.ts';
import { formatBest } from '../units/index.ts';
import { constantInput } from './collect.ts';
import type { Recipe } from './derived.ts';
import { rename } from './input.ts';
import { type Draw, isSameDraw, loadWays, motorDraws } from './wire-draws.ts';
import { resistorDraws } from './wire-resistors.ts';
import { type SolvedCurrents, solvedCurrents } from './wire-solved.ts';

/** A current, and how it was found. */
export type Flow = Pick<Recipe, 'formula' | 'inputs' | 'si' | 'source'>;

const SOLVED = later`operating point of the circuit by Kirchhoff's laws, in the state in which it carries most`;
const SUMMED = later`the sum of what flows through it at most; drives at two thirds of the set phase current, RMS (common practice, no source)`;

/** What flows through a link, fuse or contact at most, by its slot; undefined where nothing is known to. */
export function flowThrough(machine: Machine, slot: object): Flow | undefined {
  if (isUnknownAt.get(machine, slot)) return undefined;
  const draws = [drawnAt, solvedAt].flatMap((draws) => draws.get(machine, slot) ?? []);
  const inWire = ampsAt.get(machine, slot);
  const sum = draws.length > 0 ? sumOf(draws) : undefined;
  if (inWire === undefined || (sum && sum.si >= inWire)) return sum;
  const input = constantInput(later`largest current of its circuit`, inWire, showAmps);
  return { formula: `{${input.name}}`, inputs: [input], si: inWire, source: SOLVED };
}

/** By the slot of the way: true where something draws through it of which nobody knows how much. */
const isUnknownAt = factKeys('machine', loadWays, ({ draw, path }) => (draw ? [] : path));

const allDraws = fact('machine', (machine: Machine): readonly Draw[] => [
  ...loadWays(machine).flatMap(({ draw }) => draw ?? []),
  ...motorDraws(machine),
  ...resistorDraws(machine),
]);

/** By the slot of the way: what loads, motors and resistors draw through it. */
const drawnAt = drawsBy(allDraws, (draw) => [draw]);

/** By the slot of the way: what the circuits that were solved draw through it. */
const solvedAt = drawsBy(solvedCurrents, ({ draws }) => draws);

function drawsBy<E>(
  listOf: (machine: Machine) => readonly E[],
  drawsOf: (member: E) => readonly Draw[],
): FactIndex<Machine, object, readonly Draw[]> {
  return factIndex(
    'machine',
    listOf,
    (member) => drawsOf(member).flatMap(({ path }) => path),
    (members, slot) => members.flatMap(drawsOf).filter(({ path }) => path.includes(slot)),
    (before, now) =>
      before.length === now.length && before.every((draw, place) => isSameDraw(draw, now[place])),
  );
}

/** By the slot of the way: the most that flows in it as solved, in A. */
const ampsAt = factIndex<Machine, SolvedCurrents, object, number | undefined>(
  'machine',
  solvedCurrents,
  ({ inWires }) => inWires.keys(),
  (groups, slot) => groups.at(-1)?.inWires.get(slot),
  Object.is,
);

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
