import { expect, it } from 'vitest';
import type { Network } from '../../server/core/circuits/solve/branch.ts';
import { type Solved, solve } from '../../server/core/circuits/solve/solver.ts';
import { spiceNode, writeSpice } from '../../server/core/circuits/solve/spice.ts';
import { randomNetwork } from '../core/circuits/random-network.ts';
import { randomFrom } from '../support/random.ts';
import { compare, runNgspice } from './ngspice.ts';

const WANTED = 1000;

it(`agrees with ngspice on ${WANTED} random networks, within 1 % or 1 mV`, () => {
  const random = randomFrom(20_26);
  const networks: { network: Network; solved: Solved }[] = [];
  let contradictory = 0;
  while (networks.length < WANTED) {
    const network = randomNetwork(random);
    const solved = solve(network);
    if (solved.kind === 'contradiction') contradictory++;
    else if (solved.kind === 'solved') networks.push({ network, solved });
    else throw new Error(`no result but ${solved.kind}`);
  }
  const decks = networks.map(({ network }, index) => ({
    text: writeSpice(network, `random network ${index}`),
    nodes: Array.from({ length: network.nodes - 1 }, (_, node) => spiceNode(network, node + 1)),
  }));
  const theirs = runNgspice(decks);
  let compared = 0;
  let worst = 0;
  const wrong: string[] = [];
  for (const [index, { network, solved }] of networks.entries()) {
    for (let node = 1; node < network.nodes; node++) {
      // Nodes that nothing ties to the reference are at a voltage by the leak alone, which is no figure to compare.
      if (!solved.tied[solved.classes.rootOf[node] ?? 0]) continue;
      const ours = solved.volts[node] ?? Number.NaN;
      const { agree, apart } = compare(ours, theirs[index]?.get(spiceNode(network, node)));
      compared++;
      worst = Math.max(worst, apart);
      if (!agree)
        wrong.push(
          `network ${index}, node ${node}: ${ours} V, ngspice ${theirs[index]?.get(spiceNode(network, node))} V`,
        );
    }
  }
  console.log(
    `random networks: ${networks.length} solved (${contradictory} more were contradictory), ${compared} voltages compared, ${wrong.length} apart, worst by ${(worst * 1e3).toPrecision(3)} mV`,
  );
  expect(wrong.slice(0, 10)).toEqual([]);
  expect(compared).toBeGreaterThan(4 * WANTED);
}, 120_000);
