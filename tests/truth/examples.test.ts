import { expect, it } from 'vitest';
import { actorsIn } from '../../server/core/circuits/solve/actors.ts';
import { composeCircuit } from '../../server/core/circuits/solve/circuit.ts';
import { plainView } from '../../server/core/circuits/solve/groups.ts';
import { solveMachine, solveWith } from '../../server/core/circuits/solve/inputs.ts';
import { spiceNode, writeSpice } from '../../server/core/circuits/solve/spice.ts';
import type { Solution } from '../../server/core/circuits/solve/states.ts';
import { exampleMachines } from '../core/circuits/machines.ts';
import { compare, type Deck, runNgspice } from './ngspice.ts';

const examples = exampleMachines();

it('looks at an example', () => {
  expect(examples.length).toBeGreaterThan(0);
});

it.each(examples)(
  '%s: agrees with ngspice on every group in every state, within 1 % or 1 mV',
  (file, machine) => {
    const { board, groups, held } = solveMachine(machine);
    const states: { name: string; solution: Solution }[] = [];
    for (const group of groups) {
      const circuit = composeCircuit(board, plainView(board), group);
      states.push({ name: `${group.name} at rest`, solution: solveWith(circuit, held) });
      for (const actor of actorsIn(board, group))
        states.push({
          name: `${group.name}, ${actor.name} operated`,
          solution: solveWith(circuit, held, actor),
        });
    }
    const decks = states.map(({ name, solution }): Deck => {
      const { network } = solution.composed;
      const nodes = Array.from({ length: network.nodes }, (_, node) => node);
      return {
        text: writeSpice(network, name),
        nodes: nodes.filter((node) => node !== network.reference).map((node) => spiceNode(network, node)),
      };
    });
    const theirs = runNgspice(decks);
    let compared = 0;
    let worst = 0;
    const wrong: string[] = [];
    for (const [index, { name, solution }] of states.entries()) {
      const { network } = solution.composed;
      if (solution.outcome.kind !== 'solved') {
        wrong.push(`${name}: ${solution.outcome.kind}`);
        continue;
      }
      const { volts, tied, classes } = solution.outcome;
      for (const [node, ours] of volts.entries()) {
        if (node === network.reference || !tied[classes.rootOf[node] ?? 0]) continue;
        const { agree, apart } = compare(ours, theirs[index]?.get(spiceNode(network, node)));
        compared++;
        worst = Math.max(worst, apart);
        if (!agree)
          wrong.push(`${name}: ${ours} V, ngspice ${theirs[index]?.get(spiceNode(network, node))} V`);
      }
    }
    console.log(
      `${file}: ${groups.length} groups, ${states.length} states, ${compared} voltages compared, ${wrong.length} apart, worst by ${(worst * 1e3).toPrecision(3)} mV`,
    );
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(200);
  },
);
