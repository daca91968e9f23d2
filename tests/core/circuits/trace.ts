import type { SolvedMachine } from '../../../server/core/circuits/solve/inputs.ts';
import type { Solution } from '../../../server/core/circuits/solve/states.ts';
import { type Stop, solveBreak, traceWay, voltsAt } from '../../../server/core/circuits/solve/way.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

/** The way of the current through an input, by names, with what its terminals are at in any state. */
export function trace(
  parts: readonly (BenchPart | readonly [string, BenchPart])[],
  links: readonly string[],
  name = 'reader.down',
) {
  return traceIn(benchMachine(parts, links), name);
}

export function traceIn(text: string, name: string) {
  const solved = solveText(text);
  const input = inputOf(solved, name);
  const stops = traceWay(solved.board, input);
  /** In V; undefined where a terminal hangs loose. */
  const voltsIn = (solution: Solution | undefined) =>
    stops.map(({ terminal }) => {
      const volts = solution && voltsAt(solved.board, solution, terminal);
      return volts === undefined ? undefined : Math.abs(Math.round(volts * 1000)) / 1000;
    });
  const withoutLinkFrom = (from: string) => {
    const link = solved.board.machine.links.find((each) => each.from.id === from);
    return link && solveBreak(solved, link);
  };
  return { way: stops.map((stop) => nameStop(solved, stop)), voltsIn, input, withoutLinkFrom };
}

function nameStop({ board }: SolvedMachine, { terminal, by }: Stop): string {
  const end = board.conductors.terminals[terminal];
  if (!by) return `from ${end}`;
  if (by.kind === 'wire') return `wire to ${end}`;
  const at = by.kind === 'inside' ? by.at : board.elements[by.element]?.at;
  return `${at?.part.name}.${at?.circuit.name} to ${end}`;
}
