import type { Branch, Diode, Network } from './branch.ts';
import { type Classes, type Contradiction, classify, joinCurrents } from './joins.ts';
import { solveSymmetric } from './matrix.ts';

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
  readonly volts: Float64Array;
  /** Of each branch from its `a` to its `b`; for joins see `currentsOf`. */
  readonly amps: Float64Array;
  /** The set of joined nodes that each node belongs to. */
  readonly classes: Classes;
  /** By class: whether something that conducts ties it to the reference. What floats has a voltage by the leak alone. */
  readonly tied: Uint8Array;
}

/**
 * A leak from every node to the reference, 1 Gohm, keeps loose nodes solvable. It is far above the resistance of any
 * input: on 4.7 kohm at 24 V it moves the result by 0.1 mV.
 */
export const LEAK = 1e-9;

/** Dense solving grows with the cube: this many unknowns take about a millisecond. */
const MOST_UNKNOWNS = 160;

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
  return settle(network, classes, unknowns);
}

/** The currents of all branches, joins among them; a join in a loop of joins carries what nothing determines: NaN. */
export function currentsOf(network: Network, { amps, volts, classes }: Solved): Float64Array {
  const leaving = new Float64Array(network.nodes);
  const add = (node: number, current: number) => {
    leaving[node] = (leaving[node] ?? 0) + current;
  };
  for (const [index, { kind, a, b }] of network.branches.entries()) {
    if (kind === 'join') continue;
    add(a, amps[index] ?? 0);
    add(b, -(amps[index] ?? 0));
  }
  const { rootOf } = classes;
  for (const [node, root] of rootOf.entries()) {
    // The leak of a set leaves at its root, as it was solved.
    if (root === node && node !== rootOf[network.reference]) add(node, LEAK * (volts[node] ?? 0));
  }
  const joins = joinCurrents(network, classes, leaving);
  return amps.map((current, index) =>
    network.branches[index]?.kind === 'join' ? (joins.get(index) ?? Number.NaN) : current,
  );
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
  readonly of: Int32Array;
}

function numberUnknowns({ nodes, reference }: Network, { rootOf }: Classes): Unknowns {
  const byRoot = new Int32Array(nodes).fill(-2);
  byRoot[rootOf[reference] ?? 0] = -1;
  const of = new Int32Array(nodes);
  let count = 0;
  for (let node = 0; node < nodes; node++) {
    const root = rootOf[node] ?? 0;
    if (byRoot[root] === -2) byRoot[root] = count++;
    of[node] = byRoot[root] ?? -1;
  }
  return { count, of };
}

/** A system of equations for the unknowns, to which branches are added one by one. */
interface System {
  readonly matrix: Float64Array;
  readonly values: Float64Array;
}

function settle(network: Network, classes: Classes, unknowns: Unknowns): Outcome {
  const { branches } = network;
  const diodes: number[] = [];
  const fixed = emptySystem(unknowns.count);
  const shift = classes.offsetOf[network.reference] ?? 0;
  const offsets = classes.offsetOf.map((offset) => offset - shift);
  for (const [index, branch] of branches.entries()) {
    if (branch.kind === 'diode') diodes.push(index);
    else addBranch(fixed, branch, unknowns, offsets);
  }
  addLeaks(fixed, network, classes, unknowns, offsets);
  const conducts = new Uint8Array(branches.length);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const system = { matrix: fixed.matrix.slice(), values: fixed.values.slice() };
    for (const index of diodes) {
      if (conducts[index]) addDiode(system, branches[index] as Diode, unknowns, offsets);
    }
    if (!solveSymmetric(system.matrix, system.values)) return { kind: 'unsettled' };
    const volts = offsets.map((offset, node) => {
      const unknown = unknowns.of[node] ?? -1;
      return offset + (unknown < 0 ? 0 : (system.values[unknown] ?? 0));
    });
    const wrong = diodes.filter(
      (index) => !isConsistent(branches[index] as Diode, conducts[index] === 1, volts),
    );
    if (wrong.length === 0) return finish(network, classes, conducts, volts);
    const flips = round < QUICK_ROUNDS ? wrong : wrong.slice(0, 1);
    for (const index of flips) conducts[index] = conducts[index] ? 0 : 1;
  }
  return { kind: 'unsettled' };
}

function emptySystem(count: number): System {
  return { matrix: new Float64Array(count * count), values: new Float64Array(count) };
}

/** Adds a conductance between two nodes, and a current that flows from `a` to `b` whatever their voltages are. */
function stamp(
  { matrix, values }: System,
  { a, b }: { readonly a: number; readonly b: number },
  conductance: number,
  current: number,
  unknowns: Unknowns,
  offsets: Float64Array,
): void {
  const [i, j] = [unknowns.of[a] ?? -1, unknowns.of[b] ?? -1];
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

function addBranch(system: System, branch: Branch, unknowns: Unknowns, offsets: Float64Array): void {
  if (branch.kind === 'resistor') stamp(system, branch, 1 / branch.ohms, 0, unknowns, offsets);
  else if (branch.kind === 'source')
    stamp(system, branch, 1 / branch.ohms, -branch.volts / branch.ohms, unknowns, offsets);
  else if (branch.kind === 'current') stamp(system, branch, 0, branch.amps, unknowns, offsets);
}

function addDiode(system: System, diode: Diode, unknowns: Unknowns, offsets: Float64Array): void {
  stamp(system, diode, 1 / diode.slope, -diode.threshold / diode.slope, unknowns, offsets);
}

/** One leak for each set, at its root, so that a rail with many terminals leaks no more than a lone one. */
function addLeaks(
  system: System,
  network: Network,
  { rootOf }: Classes,
  unknowns: Unknowns,
  offsets: Float64Array,
): void {
  for (const [node, root] of rootOf.entries()) {
    if (root === node) stamp(system, { a: node, b: network.reference }, LEAK, 0, unknowns, offsets);
  }
}

function isConsistent({ a, b, threshold, slope }: Diode, conducts: boolean, volts: Float64Array): boolean {
  const above = (volts[a] ?? 0) - (volts[b] ?? 0) - threshold;
  return conducts ? above / slope >= -NO_AMPS : above <= NO_VOLTS;
}

function finish(network: Network, classes: Classes, conducts: Uint8Array, volts: Float64Array): Solved {
  const across = ({ a, b }: Branch) => (volts[a] ?? 0) - (volts[b] ?? 0);
  const amps = new Float64Array(network.branches.length);
  for (const [index, branch] of network.branches.entries()) {
    if (branch.kind === 'resistor') amps[index] = across(branch) / branch.ohms;
    else if (branch.kind === 'source') amps[index] = (across(branch) - branch.volts) / branch.ohms;
    else if (branch.kind === 'current') amps[index] = branch.amps;
    else if (branch.kind === 'diode' && conducts[index])
      amps[index] = (across(branch) - branch.threshold) / branch.slope;
  }
  return { kind: 'solved', volts, amps, classes, tied: findTied(network, classes, conducts) };
}

/** Spreads from the reference through everything that conducts. */
function findTied(
  { nodes, reference, branches }: Network,
  { rootOf }: Classes,
  conducts: Uint8Array,
): Uint8Array {
  const tied = new Uint8Array(nodes);
  tied[rootOf[reference] ?? 0] = 1;
  for (let grew = true; grew; ) {
    grew = false;
    for (const [index, { kind, a, b }] of branches.entries()) {
      if (kind === 'current' || kind === 'join' || (kind === 'diode' && !conducts[index])) continue;
      const [rootA, rootB] = [rootOf[a] ?? 0, rootOf[b] ?? 0];
      if (tied[rootA] === tied[rootB]) continue;
      tied[rootA] = 1;
      tied[rootB] = 1;
      grew = true;
    }
  }
  return tied;
}
