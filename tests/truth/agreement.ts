import { actorsIn } from '../../server/core/circuits/solve/actors.ts';
import { composeCircuit } from '../../server/core/circuits/solve/circuit.ts';
import { plainView } from '../../server/core/circuits/solve/groups.ts';
import { solveMachine, solveWith } from '../../server/core/circuits/solve/inputs.ts';
import { spiceNode, writeSpice } from '../../server/core/circuits/solve/spice.ts';
import type { Solution } from '../../server/core/circuits/solve/states.ts';
import type { Machine } from '../../server/core/model/resolve.ts';
import { compare, type Deck, runNgspice } from './ngspice.ts';

/** A group in one state. */
export interface StateOf {
  readonly name: string;
  readonly solution: Solution;
}

/** Every group of a machine, at rest and with each of its actors operated. */
export function statesOf(machine: Machine): StateOf[] {
  const { board, groups, held } = solveMachine(machine);
  return groups.flatMap((group) => {
    const circuit = composeCircuit(board, plainView(board), group);
    return [
      { name: `${group.name} at rest`, solution: solveWith(circuit, held) },
      ...actorsIn(board, group).map((actor) => ({
        name: `${group.name}, ${actor.name} operated`,
        solution: solveWith(circuit, held, actor),
      })),
    ];
  });
}

/** How far two solvers are apart over all nodes that something ties to the reference. */
export interface Agreement {
  readonly solved: number;
  /** States that have no solution, by the reason. */
  readonly others: ReadonlyMap<string, number>;
  readonly compared: number;
  readonly worst: number;
  readonly wrong: readonly string[];
}

/** Holds solved states against ngspice. */
export function holdAgainstNgspice(states: readonly StateOf[]): Agreement {
  const others = new Map<string, number>();
  const solved = states.filter(({ solution: { outcome } }) => {
    if (outcome.kind !== 'solved') others.set(outcome.kind, (others.get(outcome.kind) ?? 0) + 1);
    return outcome.kind === 'solved';
  });
  const theirs = runNgspice(solved.map(({ name, solution }) => deckOf(name, solution)));
  let compared = 0;
  let worst = 0;
  const wrong: string[] = [];
  for (const [index, { name, solution }] of solved.entries()) {
    const { outcome, composed } = solution;
    if (outcome.kind !== 'solved') continue;
    for (const [node, ours] of outcome.volts.entries()) {
      if (node === composed.network.reference || !outcome.tied[outcome.classes.rootOf[node] ?? 0]) continue;
      const their = theirs[index]?.get(spiceNode(composed.network, node));
      const { agree, apart } = compare(ours, their);
      compared++;
      worst = Math.max(worst, apart);
      if (!agree) wrong.push(`${name}: ${ours} V, ngspice ${their} V`);
    }
  }
  return { solved: solved.length, others, compared, worst, wrong };
}

function deckOf(name: string, { composed: { network } }: Solution): Deck {
  const nodes = Array.from({ length: network.nodes }, (_, node) => node);
  return {
    text: writeSpice(network, name),
    nodes: nodes.filter((node) => node !== network.reference).map((node) => spiceNode(network, node)),
  };
}
