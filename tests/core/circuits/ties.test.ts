import { describe, expect, it } from 'vitest';
import type { Branch, Network } from '../../../server/core/circuits/solve/branch.ts';
import { LEAK, solve } from '../../../server/core/circuits/solve/solver.ts';
import { randomFrom } from '../../support/random.ts';
import { benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';
import { randomNetwork } from './random-network.ts';

/* What ties a node to the reference, so that its voltage is one to rely on, and what does not. */

/** The nodes that some branches tie to the reference, found by spreading. */
function spreadFrom(
  { nodes, reference, branches }: Network,
  ties: (branch: Branch, index: number) => boolean,
): boolean[] {
  const found = new Set([reference]);
  // The set grows while it is walked through.
  for (const node of found)
    for (const [index, branch] of branches.entries())
      if ((branch.a === node || branch.b === node) && ties(branch, index))
        found.add(branch.a === node ? branch.b : branch.a);
  return Array.from({ length: nodes }, (_, node) => found.has(node));
}

it('joins, resistances and conducting diodes tie, in a thousand random networks; driven currents do not', () => {
  const random = randomFrom(31);
  let [loose, solved] = [0, 0];
  for (let each = 0; each < 1000; each++) {
    const network = randomNetwork(random);
    // With fewer branches some nodes hang loose.
    const sparse = { ...network, branches: network.branches.filter(() => random.below(2) === 0) };
    const outcome = solve(sparse);
    if (outcome.kind !== 'solved') continue;
    solved++;
    const { volts, amps, classes, tied } = outcome;
    const across = ({ a, b }: Branch) => (volts[a] ?? 0) - (volts[b] ?? 0);
    const ties = (isOn: (branch: Branch & { kind: 'diode' }, index: number) => boolean) =>
      spreadFrom(
        sparse,
        (branch, index) => branch.kind !== 'current' && (branch.kind !== 'diode' || isOn(branch, index)),
      );
    // A diode just at its threshold may count as either.
    const least = ties((_, index) => (amps[index] ?? 0) > 1e-9);
    const most = ties((branch) => across(branch) >= branch.threshold - 1e-6);
    for (let node = 0; node < sparse.nodes; node++) {
      const isTied = tied[classes.rootOf[node] ?? 0] === true;
      if (least[node]) expect(isTied, JSON.stringify(sparse)).toBe(true);
      if (!most[node]) expect(isTied, JSON.stringify(sparse)).toBe(false);
      if (!isTied) loose++;
    }
  }
  expect(solved).toBeGreaterThan(500);
  expect(loose).toBeGreaterThan(500);
});

it('what hangs loose has what a driven current loses in the leak of 100 Gohm', () => {
  const branches: Branch[] = [{ kind: 'current', a: 0, b: 1, amps: 1e-10 }];
  const outcome = solve({ nodes: 2, reference: 0, branches });
  expect(outcome.kind === 'solved' && outcome.volts[1]).toBeCloseTo(1e-10 / LEAK, 6);
});

describe('a ring of supplies that does not come out even', () => {
  const ring = (last: Branch): Network => ({
    nodes: 3,
    reference: 0,
    branches: [{ kind: 'join', a: 1, b: 0, volts: 5 }, { kind: 'join', a: 2, b: 1, volts: 5 }, last],
  });
  it('is told by the last of them, and by how many volts', () => {
    const told = (a: number, b: number, volts: number) => solve(ring({ kind: 'join', a, b, volts }));
    expect(told(2, 0, 12)).toEqual({ kind: 'contradiction', contradictions: [{ branch: 2, volts: 2 }] });
    expect(told(0, 2, -12)).toEqual({ kind: 'contradiction', contradictions: [{ branch: 2, volts: -2 }] });
    expect(told(2, 0, 10).kind).toBe('solved');
  });
});

describe('a sensor that is fed through resistors', () => {
  const fedThrough = (feeds: readonly string[]) => {
    const parts = [['a', 'resistor'], ['b', 'resistor'], 'pnp', 'reader'] as const;
    const solved = solveText(benchMachine(parts, [...feeds, 'pnp.O -> reader.DN']));
    return inputOf(solved, 'reader.down').operations.map(({ actor, sight }) => [
      actor.name,
      Number(sight.value?.toFixed(2)),
    ]);
  };
  it('works as long as its own draw leaves it enough', () => {
    // It draws as 2 kohm does. Behind two resistors beside one another, 1 kohm together, and with 4 kohm at its output, which
    // is 2 V below its plus, it has (24 / 1 + 2 / 4) / (1 / 1 + 1 / 2 + 1 / 4) = 14 V.
    const beside = ['reader.S24 -> a.A, b.A', 'a.B -> pnp.P', 'b.B -> pnp.P', 'pnp.M -> reader.S0'];
    expect(fedThrough(beside)).toEqual([['pnp', 12]]);
  });
  it('is dead where that is less than it needs', () => {
    expect(fedThrough(['reader.S24 -> a.A', 'a.B -> b.A', 'b.B -> pnp.P', 'pnp.M -> reader.S0'])).toEqual([]);
  });
});
