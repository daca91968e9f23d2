import type { Branch, Network } from './branch.ts';
import { type Classes, type Contradiction, classify, joinCurrents } from './joins.ts';
import { type Equations, makeRoom, solveSymmetric } from './matrix.ts';

/** What came of solving. Nothing here is an exception: a short circuit is a result like any other. */
export type Outcome =
  | Solved
  /** Two joins hold the same nodes at different voltages: a shorted supply, or two supplies against each other. */
  | { readonly kind: 'contradiction'; readonly contradictions: readonly Contradiction[] }
  | { readonly kind: 'too-large'; readonly unknowns: number }
  /** A figure that no part can have: a resistance below zero, or no number at all. */
  | { readonly kind: 'impossible'; readonly branch: number }
  /** The diodes found no consistent state within the bound. */
  | { readonly kind: 'unsettled' };

export interface Solved {
  readonly kind: 'solved';
  /** Of each node, above the reference. */
  readonly volts: readonly number[];
  /** Of each branch from its `a` to its `b`; for joins see `currentsOf`. */
  readonly amps: readonly number[];
  /** The set of joined nodes that each node belongs to. */
  readonly classes: Classes;
  /** By class: whether something that conducts ties it to the reference. What floats has a voltage by the leak alone. */
  readonly tied: readonly boolean[];
}

/**
 * A leak from every node to the reference, 100 Gohm, keeps loose nodes solvable. It is far above the resistance of any
 * input: on 4.7 kohm at 24 V it moves the result by 1 uV. Much less would drown in the rounding of the largest
 * conductance, 1000 S, of which doubles keep 1e-13 S.
 */
export const LEAK = 1e-11;

/** Dense solving grows with the square here, with the cube at the worst: a millisecond for this many unknowns. */
export const MOST_UNKNOWNS = 160;

/** Plain flips settle nearly always; the slow way that always ends takes over after so many. */
const QUICK_ROUNDS = 6;
const MOST_ROUNDS = 400;

/** What rounding may leave of a current or a voltage that is none. */
const NO_AMPS = 1e-12;
const NO_VOLTS = 1e-9;

/**
 * Finds the DC operating point of a network by nodal analysis (any textbook). Joined nodes share one unknown, which
 * takes the place of the extra rows that modified nodal analysis (Ho, Ruehli and Brennan, 1975) spends on voltage
 * sources. Diodes are piecewise linear; which of them conduct is a linear complementarity problem with a P-matrix,
 * since all slopes are above zero, so there is one consistent state and no more, and flipping the first inconsistent
 * diode (Murty, 1974; from memory) ends there from anywhere. The same network gives the same result, bit for bit.
 */
export function solve(network: Network): Outcome {
  const impossible = network.branches.findIndex((branch) => !isPossible(branch));
  if (impossible >= 0) return { kind: 'impossible', branch: impossible };
  const { classes, contradictions } = classify(network);
  if (contradictions.length > 0) return { kind: 'contradiction', contradictions };
  const unknowns = numberUnknowns(network, classes);
  if (unknowns.count > MOST_UNKNOWNS) return { kind: 'too-large', unknowns: unknowns.count };
  return settle(network, classes, orderUnknowns(network, unknowns));
}

/** The currents of all branches, joins among them; a join in a loop of joins carries what nothing determines: NaN. */
export function currentsOf(network: Network, { amps, volts, classes }: Solved): number[] {
  const leaving = filled(network.nodes, 0);
  const add = (node: number, current: number) => {
    leaving[node] = (leaving[node] ?? 0) + current;
  };
  network.branches.forEach(({ kind, a, b }, index) => {
    if (kind === 'join') return;
    add(a, amps[index] ?? 0);
    add(b, -(amps[index] ?? 0));
  });
  const { rootOf } = classes;
  rootOf.forEach((root, node) => {
    // The leak of a set leaves at its root, as it was solved.
    if (root === node && node !== rootOf[network.reference]) add(node, LEAK * (volts[node] ?? 0));
  });
  const joins = joinCurrents(network, classes, leaving);
  return amps.map((current, index) =>
    network.branches[index]?.kind === 'join' ? (joins.get(index) ?? Number.NaN) : current,
  );
}

function filled<T>(count: number, value: T): T[] {
  return new Array<T>(count).fill(value);
}

function isPossible(branch: Branch): boolean {
  switch (branch.kind) {
    case 'join':
      return Number.isFinite(branch.volts);
    case 'resistor':
      return branch.ohms > 0 && Number.isFinite(branch.ohms);
    case 'source':
      return branch.ohms > 0 && Number.isFinite(branch.ohms) && Number.isFinite(branch.volts);
    case 'current':
      return Number.isFinite(branch.amps);
    case 'diode':
      return branch.slope > 0 && Number.isFinite(branch.slope) && Number.isFinite(branch.threshold);
  }
}

interface Unknowns {
  readonly count: number;
  /** The unknown of each node's set; -1 for the one of the reference. */
  readonly of: readonly number[];
}

function numberUnknowns({ nodes, reference }: Network, { rootOf }: Classes): Unknowns {
  const byRoot = filled(nodes, -2);
  byRoot[rootOf[reference] ?? 0] = -1;
  const of: number[] = [];
  let count = 0;
  for (let node = 0; node < nodes; node++) {
    const root = rootOf[node] ?? 0;
    if (byRoot[root] === -2) byRoot[root] = count++;
    of.push(byRoot[root] ?? -1);
  }
  return { count, of };
}

/** From this many unknowns on their order matters more than it costs to find. */
const WORTH_ORDERING = 12;

/**
 * Numbers unknowns anew, those with few neighbours first. Circuits are nearly trees: when their leaves are eliminated
 * before the nodes that they hang on, the matrix stays as sparse as it was (Tinney and Walker, 1967; from memory).
 */
function orderUnknowns({ branches }: Network, { count, of }: Unknowns): Unknowns {
  if (count < WORTH_ORDERING) return { count, of };
  const degree = filled(count, 0);
  for (const { a, b } of branches) {
    const i = of[a] ?? -1;
    const j = of[b] ?? -1;
    if (i < 0 || j < 0 || i === j) continue;
    degree[i] = (degree[i] ?? 0) + 1;
    degree[j] = (degree[j] ?? 0) + 1;
  }
  const order = degree
    .map((_, unknown) => unknown)
    .sort((i, j) => (degree[i] ?? 0) - (degree[j] ?? 0) || i - j);
  const place = filled(count, 0);
  order.forEach((unknown, at) => {
    place[unknown] = at;
  });
  return { count, of: of.map((unknown) => (unknown < 0 ? unknown : (place[unknown] ?? 0))) };
}

/** A system of equations for the unknowns, to which branches are added one by one. */
interface System {
  readonly unknowns: Unknowns;
  /** How far each node is above the unknown of its set. */
  readonly offsets: readonly number[];
  readonly equations: Equations;
}

/** For what is the same whichever diodes conduct, and for the rounds that find out which do. */
const fixedRoom = makeRoom();
const roundRoom = makeRoom();

function settle(network: Network, classes: Classes, unknowns: Unknowns): Outcome {
  const { branches } = network;
  const shift = classes.offsetOf[network.reference] ?? 0;
  const fixed: System = {
    unknowns,
    offsets: classes.offsetOf.map((offset) => offset - shift),
    equations: fixedRoom(unknowns.count),
  };
  const diodes: number[] = [];
  for (let index = 0; index < branches.length; index++) {
    const branch = branches[index];
    if (branch?.kind === 'diode') diodes.push(index);
    else if (branch) addBranch(fixed, branch);
  }
  addLeaks(fixed, network, classes);
  const conducts = filled(branches.length, false);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const system = { ...fixed, equations: copyOf(fixed.equations) };
    for (const index of diodes) {
      if (conducts[index]) addBranch(system, branches[index]);
    }
    solveSymmetric(system.equations, LEAK / 2);
    const volts = voltsOf(system);
    const wrong = diodes.filter((index) => !isConsistent(branches[index], conducts[index] ?? false, volts));
    if (wrong.length === 0) return finish(network, classes, conducts, volts);
    const flips = round < QUICK_ROUNDS ? wrong : wrong.slice(0, 1);
    for (const index of flips) conducts[index] = !conducts[index];
  }
  return { kind: 'unsettled' };
}

function copyOf({ count, matrix, values }: Equations): Equations {
  const copy = roundRoom(count);
  for (let place = 0; place < count * count; place++) copy.matrix[place] = matrix[place] ?? 0;
  for (let place = 0; place < count; place++) copy.values[place] = values[place] ?? 0;
  return copy;
}

/** The voltages of all nodes once the values of a system are its solution. */
function voltsOf({ offsets, unknowns, equations: { values } }: System): number[] {
  return offsets.map((offset, node) => {
    const unknown = unknowns.of[node] ?? -1;
    return unknown < 0 ? offset : offset + (values[unknown] ?? 0);
  });
}

/** Adds a conductance between two nodes, and a current that flows from `a` to `b` whatever their voltages are. */
function stamp(
  { equations: { matrix, values }, unknowns, offsets }: System,
  a: number,
  b: number,
  conductance: number,
  current: number,
): void {
  const i = unknowns.of[a] ?? -1;
  const j = unknowns.of[b] ?? -1;
  if (i === j) return; // what goes round inside one set of joined nodes moves nothing
  const n = unknowns.count;
  const leaving = current + conductance * ((offsets[a] ?? 0) - (offsets[b] ?? 0));
  if (i >= 0) {
    matrix[i * n + i] = (matrix[i * n + i] ?? 0) + conductance;
    values[i] = (values[i] ?? 0) - leaving;
  }
  if (j >= 0) {
    matrix[j * n + j] = (matrix[j * n + j] ?? 0) + conductance;
    values[j] = (values[j] ?? 0) + leaving;
  }
  if (i >= 0 && j >= 0) {
    const place = Math.max(i, j) * n + Math.min(i, j);
    matrix[place] = (matrix[place] ?? 0) - conductance;
  }
}

/** Adds a branch; a diode is added only while it conducts. */
function addBranch(system: System, branch: Branch | undefined): void {
  if (branch?.kind === 'resistor') stamp(system, branch.a, branch.b, 1 / branch.ohms, 0);
  else if (branch?.kind === 'source')
    stamp(system, branch.a, branch.b, 1 / branch.ohms, -branch.volts / branch.ohms);
  else if (branch?.kind === 'current') stamp(system, branch.a, branch.b, 0, branch.amps);
  else if (branch?.kind === 'diode')
    stamp(system, branch.a, branch.b, 1 / branch.slope, -branch.threshold / branch.slope);
}

/** One leak for each set, at its root, so that a rail with many terminals leaks no more than a lone one. */
function addLeaks(system: System, { reference }: Network, { rootOf }: Classes): void {
  for (let node = 0; node < rootOf.length; node++) {
    if (rootOf[node] === node) stamp(system, node, reference, LEAK, 0);
  }
}

function isConsistent(branch: Branch | undefined, conducts: boolean, volts: readonly number[]): boolean {
  if (branch?.kind !== 'diode') return true;
  const above = (volts[branch.a] ?? 0) - (volts[branch.b] ?? 0) - branch.threshold;
  return conducts ? above / branch.slope >= -NO_AMPS : above <= NO_VOLTS;
}

function finish(
  network: Network,
  classes: Classes,
  conducts: readonly boolean[],
  volts: readonly number[],
): Solved {
  const amps = network.branches.map((branch, index) => {
    const across = (volts[branch.a] ?? 0) - (volts[branch.b] ?? 0);
    if (branch.kind === 'resistor') return across / branch.ohms;
    if (branch.kind === 'source') return (across - branch.volts) / branch.ohms;
    if (branch.kind === 'current') return branch.amps;
    return branch.kind === 'diode' && conducts[index] ? (across - branch.threshold) / branch.slope : 0;
  });
  return { kind: 'solved', volts, amps, classes, tied: findTied(network, classes, conducts) };
}

/** Spreads from the reference through everything that conducts. */
function findTied(
  { nodes, reference, branches }: Network,
  { rootOf }: Classes,
  conducts: readonly boolean[],
): boolean[] {
  const tied = filled(nodes, false);
  tied[rootOf[reference] ?? 0] = true;
  for (let grew = true; grew; ) {
    grew = false;
    for (let index = 0; index < branches.length; index++) {
      const branch = branches[index];
      if (!branch || branch.kind === 'current' || branch.kind === 'join') continue;
      if (branch.kind === 'diode' && !conducts[index]) continue;
      const rootA = rootOf[branch.a] ?? 0;
      const rootB = rootOf[branch.b] ?? 0;
      if (tied[rootA] === tied[rootB]) continue;
      tied[rootA] = true;
      tied[rootB] = true;
      grew = true;
    }
  }
  return tied;
}
