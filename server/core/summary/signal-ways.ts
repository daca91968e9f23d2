import type { MachineAnalysis } from '../analysis.ts';
import type { Board } from '../circuits/solve/board.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import { traceWay } from '../circuits/solve/way.ts';
import { numberOf } from '../model/link-number.ts';
import { linkId } from './places.ts';

const kept = new WeakMap<Board, readonly (readonly string[])[]>();

/** For every input the ids of the links that its current runs through, from rail to rail or all the way round. */
export function signalWays({ machine }: MachineAnalysis): readonly (readonly string[])[] {
  const { solved } = circuitsOf(machine);
  let ways = kept.get(solved.board);
  if (!ways) {
    ways = solved.inputs
      .map((input) =>
        traceWay(solved.board, input).flatMap(({ by }) =>
          by?.kind === 'wire' ? [linkId(numberOf(machine, by.link))] : [],
        ),
      )
      .filter((links) => links.length > 0);
    kept.set(solved.board, ways);
  }
  return ways;
}
