import { describe, expect, it } from 'vitest';
import { type Branch, limitedCurrent, type Network } from '../../../server/core/circuits/solve/branch.ts';
import {
  currentsOf,
  LEAK,
  MOST_UNKNOWNS,
  type Solved,
  solve,
} from '../../../server/core/circuits/solve/solver.ts';
import { randomFrom } from '../../support/random.ts';
import { randomNetwork } from './random-network.ts';

const network = (nodes: number, ...branches: Branch[]): Network => ({ nodes, reference: 0, branches });

function solved(given: Network): Solved {
  const outcome = solve(given);
  if (outcome.kind !== 'solved') throw new Error(outcome.kind);
  return outcome;
}

describe('small circuits worked out by hand', () => {
  it('halves a voltage', () => {
    const { volts } = solved(
      network(
        3,
        { kind: 'join', a: 1, b: 0, volts: 10 },
        { kind: 'resistor', a: 1, b: 2, ohms: 1000 },
        { kind: 'resistor', a: 2, b: 0, ohms: 1000 },
      ),
    );
    expect(volts[2]).toBeCloseTo(5, 5);
  });
  it('puts (5 - 1.2) / 380 = 10 mA through a lamp', () => {
    const { amps } = solved(
      network(
        2,
        { kind: 'join', a: 1, b: 0, volts: 5 },
        { kind: 'diode', a: 1, b: 0, threshold: 1.2, slope: 380 },
      ),
    );
    expect(amps[1]).toBeCloseTo(0.01, 9);
  });
  it('lets nothing through a lamp the other way round', () => {
    const { amps } = solved(
      network(
        2,
        { kind: 'join', a: 1, b: 0, volts: 5 },
        { kind: 'diode', a: 0, b: 1, threshold: 1.2, slope: 380 },
      ),
    );
    expect(amps[1]).toBe(0);
  });
  it('shares a load between two supplies by a balance of currents', () => {
    // (12 - v) / 100 + (6 - v) / 100 = v / 200, so v = 18 / 2.5
    const { volts } = solved(
      network(
        2,
        { kind: 'source', a: 1, b: 0, volts: 12, ohms: 100 },
        { kind: 'source', a: 1, b: 0, volts: 6, ohms: 100 },
        { kind: 'resistor', a: 1, b: 0, ohms: 200 },
      ),
    );
    expect(volts[1]).toBeCloseTo(7.2, 5);
  });
  it('lets a limited current fill its load and no more', () => {
    const through = (ohms: number) =>
      solved(
        network(4, { kind: 'join', a: 1, b: 0, volts: 24 }, ...limitedCurrent(1, 2, 1e-3, 3), {
          kind: 'resistor',
          a: 2,
          b: 0,
          ohms,
        }),
      ).volts[2];
    expect(through(1000)).toBeCloseTo(1, 4); // 1 mA on 1 kohm
    expect(through(100e3)).toBeCloseTo(24, 2); // 100 kohm would need 100 V
  });
  it('never lets a limited current flow back', () => {
    const { volts } = solved(
      network(4, { kind: 'join', a: 1, b: 0, volts: -24 }, ...limitedCurrent(1, 2, 1e-3, 3), {
        kind: 'resistor',
        a: 2,
        b: 0,
        ohms: 1000,
      }),
    );
    expect(volts[2]).toBeCloseTo(0, 6);
  });
  it('drives a current from one end to the other, whatever is there', () => {
    const { volts, amps } = solved(
      network(2, { kind: 'current', a: 0, b: 1, amps: 1e-3 }, { kind: 'resistor', a: 1, b: 0, ohms: 2000 }),
    );
    expect(volts[1]).toBeCloseTo(2, 5);
    expect(amps).toEqual([1e-3, expect.closeTo(1e-3, 9)]);
  });
  it('turns a voltage the right way through four lamps, whichever way round it is', () => {
    // 10 V less twice 0.7 V, on 100 ohm and the slopes of two of them
    const bridge = (volts: number) => {
      const given = network(
        4,
        { kind: 'join', a: 1, b: 0, volts },
        ...[
          [1, 2],
          [0, 2],
          [3, 1],
          [3, 0],
        ].map(([a = 0, b = 0]): Branch => ({ kind: 'diode', a, b, threshold: 0.7, slope: 1 })),
        { kind: 'resistor', a: 2, b: 3, ohms: 100 },
      );
      return currentsOf(given, solved(given)).map((current) => Number((current * 102).toFixed(4)) + 0);
    };
    expect(bridge(10)).toEqual([-8.6, 8.6, 0, 0, 8.6, 8.6]);
    expect(bridge(-10)).toEqual([8.6, 0, 8.6, 8.6, 0, 8.6]);
  });
  it('stacks supplies, also below the reference', () => {
    const { volts } = solved(
      network(
        4,
        { kind: 'join', a: 0, b: 1, volts: 5 },
        { kind: 'join', a: 2, b: 1, volts: 12 },
        { kind: 'resistor', a: 2, b: 3, ohms: 100 },
        { kind: 'resistor', a: 3, b: 1, ohms: 200 },
      ),
    );
    // Two thirds of 12 V above the -5 V of the lower end
    expect(volts.map((each) => Number(each.toFixed(5)) + 0)).toEqual([0, -5, 7, 3]);
  });
  it('divides a voltage evenly along a chain of twenty', () => {
    const chain = Array.from(
      { length: 20 },
      (_, node): Branch => ({ kind: 'resistor', a: node + 1, b: node, ohms: 100 }),
    );
    const { volts } = solved(network(21, ...chain, { kind: 'join', a: 20, b: 0, volts: 20 }));
    for (let node = 0; node <= 20; node++) expect(volts[node]).toBeCloseTo(node, 5);
  });
  it('shares the current of a star among its fifteen arms', () => {
    // The arms of 2 kohm each are 2000 / 15 ohm together, behind 1 kohm.
    const arms = Array.from({ length: 15 }, (_, arm): Branch[] => [
      { kind: 'resistor', a: 2, b: arm + 3, ohms: 1000 },
      { kind: 'resistor', a: arm + 3, b: 0, ohms: 1000 },
    ]);
    const { volts } = solved(
      network(
        18,
        { kind: 'join', a: 1, b: 0, volts: 17 },
        { kind: 'resistor', a: 1, b: 2, ohms: 1000 },
        ...arms.flat(),
      ),
    );
    expect(volts[2]).toBeCloseTo(2, 5);
    for (let arm = 3; arm < 18; arm++) expect(volts[arm]).toBeCloseTo(1, 5);
  });
  it('tells what flows through wires and supplies, and of two wires beside one another of neither', () => {
    const given = (wires: number) =>
      network(
        3,
        { kind: 'join', a: 1, b: 0, volts: 10 },
        ...Array.from({ length: wires }, (): Branch => ({ kind: 'join', a: 1, b: 2, volts: 0 })),
        { kind: 'resistor', a: 2, b: 0, ohms: 5 },
      );
    const through = (each: Network) =>
      currentsOf(each, solved(each)).map((current) => Number(current.toFixed(6)));
    expect(through(given(1))).toEqual([-2, 2, 2]);
    expect(through(given(2))).toEqual([-2, 2, Number.NaN, 2]);
  });
});

describe('what has no plain solution', () => {
  it('tells a shorted supply and by how much', () => {
    const outcome = solve(
      network(2, { kind: 'join', a: 1, b: 0, volts: 24 }, { kind: 'join', a: 1, b: 0, volts: 0 }),
    );
    expect(outcome).toEqual({ kind: 'contradiction', contradictions: [{ branch: 1, volts: -24 }] });
  });
  it('tells two supplies against each other, and not two that agree', () => {
    const pair = (volts: number) =>
      solve(network(2, { kind: 'join', a: 1, b: 0, volts: 24 }, { kind: 'join', a: 1, b: 0, volts })).kind;
    expect(pair(48)).toBe('contradiction');
    expect(pair(24)).toBe('solved');
    // No meter in a workshop tells half a millivolt.
    expect([pair(24.0005), pair(23.9995)]).toEqual(['solved', 'solved']);
    expect([pair(24.002), pair(23.998)]).toEqual(['contradiction', 'contradiction']);
  });
  it('marks what nothing ties to the reference', () => {
    const { tied, classes, volts } = solved(
      network(
        4,
        { kind: 'join', a: 1, b: 0, volts: 24 },
        { kind: 'resistor', a: 2, b: 3, ohms: 100 },
        { kind: 'diode', a: 0, b: 1, threshold: 0.7, slope: 1 },
      ),
    );
    expect([1, 2, 3].map((node) => tied[classes.rootOf[node] ?? 0])).toEqual([true, false, false]);
    expect(volts[2]).toBeCloseTo(0, 6);
  });
  it.each([-1, 0, Number.NaN, Number.POSITIVE_INFINITY])('refuses a resistance of %d', (ohms) => {
    expect(solve(network(2, { kind: 'resistor', a: 1, b: 0, ohms }))).toEqual({
      kind: 'impossible',
      branch: 0,
    });
  });
  it('does not begin on what is too large', () => {
    const chain = (unknowns: number) =>
      solve(
        network(
          unknowns + 1,
          ...Array.from(
            { length: unknowns },
            (_, node): Branch => ({ kind: 'resistor', a: node, b: node + 1, ohms: 100 }),
          ),
        ),
      );
    expect(chain(MOST_UNKNOWNS).kind).toBe('solved');
    expect(chain(MOST_UNKNOWNS + 1)).toEqual({ kind: 'too-large', unknowns: MOST_UNKNOWNS + 1 });
  });
  it.each<Branch>([
    { kind: 'join', a: 1, b: 0, volts: Number.NaN },
    { kind: 'source', a: 1, b: 0, volts: Number.NaN, ohms: 1 },
    { kind: 'source', a: 1, b: 0, volts: 1, ohms: 0 },
    { kind: 'source', a: 1, b: 0, volts: 1, ohms: Number.POSITIVE_INFINITY },
    { kind: 'current', a: 1, b: 0, amps: Number.POSITIVE_INFINITY },
    { kind: 'diode', a: 1, b: 0, threshold: 1, slope: 0 },
    { kind: 'diode', a: 1, b: 0, threshold: 1, slope: Number.POSITIVE_INFINITY },
    { kind: 'diode', a: 1, b: 0, threshold: Number.NaN, slope: 1 },
  ])('refuses what no part can be: %j', (branch) => {
    const sound: Branch = { kind: 'resistor', a: 1, b: 0, ohms: 1 };
    expect(solve(network(2, sound, branch))).toEqual({ kind: 'impossible', branch: 1 });
  });
  it('solves a network without any branch', () => {
    expect(solve(network(3)).kind).toBe('solved');
  });
});

describe('random networks', () => {
  const random = randomFrom(7);
  const networks = Array.from({ length: 3000 }, () => randomNetwork(random));
  const outcomes = networks.map((each) => [each, solve(each)] as const);

  it('come to one of two ends', () => {
    const kinds = outcomes.map(([, { kind }]) => kind);
    expect(kinds.filter((kind) => kind === 'solved').length).toBeGreaterThan(1500);
    expect(kinds.filter((kind) => kind !== 'solved' && kind !== 'contradiction')).toEqual([]);
  });

  it("obey Kirchhoff's laws: every join keeps its voltage, and no node loses a current", () => {
    for (const [each, outcome] of outcomes) {
      if (outcome.kind === 'solved') checkKirchhoff(each, outcome);
    }
  });

  it('have diodes that either conduct forwards or block', () => {
    for (const [each, outcome] of outcomes) {
      if (outcome.kind !== 'solved') continue;
      for (const [index, branch] of each.branches.entries()) {
        if (branch.kind !== 'diode') continue;
        const across = (outcome.volts[branch.a] ?? 0) - (outcome.volts[branch.b] ?? 0);
        const current = outcome.amps[index] ?? Number.NaN;
        if (current === 0) expect(across).toBeLessThan(branch.threshold + 1e-6);
        else expect(current).toBeGreaterThan(-1e-9);
      }
    }
  });

  it('give the same, bit for bit, when solved again', () => {
    for (const [each, outcome] of outcomes.slice(0, 200)) expect(solve(each)).toEqual(outcome);
  });

  it('do not care how their nodes and branches are numbered', () => {
    for (const [each, outcome] of outcomes.slice(0, 500)) {
      if (outcome.kind !== 'solved') continue;
      const turned = (node: number) => each.nodes - 1 - node;
      const again = solve({
        nodes: each.nodes,
        reference: turned(0),
        branches: each.branches
          .toReversed()
          .map((branch) => ({ ...branch, a: turned(branch.a), b: turned(branch.b) })),
      });
      if (again.kind !== 'solved') throw new Error(again.kind);
      for (let node = 0; node < each.nodes; node++) {
        if (!outcome.tied[outcome.classes.rootOf[node] ?? 0]) continue;
        expect(Math.abs((again.volts[turned(node)] ?? 0) - (outcome.volts[node] ?? 0))).toBeLessThan(
          1e-4, // the leak of a set of joined nodes leaves at another of them: some nA on at most 100 kohm
        );
      }
    }
  });
});

/** Sums the currents at each node; what is lost is held against the terms that were taken from one another for it. */
function checkKirchhoff(each: Network, outcome: Solved): void {
  const { classes, volts } = outcome;
  const leaving = new Float64Array(each.nodes);
  const size = new Float64Array(each.nodes).fill(1e-5);
  const currents = currentsOf(each, outcome);
  for (const [index, branch] of each.branches.entries()) {
    const [high, low] = [volts[branch.a] ?? 0, volts[branch.b] ?? 0];
    if (branch.kind === 'join') expect(Math.abs(high - low - branch.volts)).toBeLessThan(2e-3);
    // A join in a loop of joins is left at nothing: the others of its loop carry all of it.
    const current = Number.isNaN(currents[index]) ? 0 : (currents[index] ?? 0);
    const ohms = branch.kind === 'diode' ? branch.slope : 'ohms' in branch ? branch.ohms : Infinity;
    for (const [node, sign] of [
      [branch.a, 1],
      [branch.b, -1],
    ] as const) {
      leaving[node] = (leaving[node] ?? 0) + sign * current;
      // What rounding leaves of one node, the joins take to the others of its set.
      const root = classes.rootOf[node] ?? 0;
      size[root] = Math.max(
        size[root] ?? 0,
        Math.abs(current),
        Math.max(Math.abs(high), Math.abs(low)) / ohms,
      );
    }
  }
  const home = classes.rootOf[each.reference];
  for (let node = 0; node < each.nodes; node++) {
    if (node === each.reference) continue; // it takes what all others give
    const leak = classes.rootOf[node] === node && home !== node ? LEAK * (volts[node] ?? 0) : 0;
    expect(Math.abs((leaving[node] ?? 0) + leak) / (size[classes.rootOf[node] ?? 0] ?? 1)).toBeLessThan(1e-9);
  }
}
