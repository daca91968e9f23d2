import type { Machine } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import type { Conductors } from '../solve/conductors.ts';
import { hiddenSources, unknownNodes } from './hidden.ts';
import { INSIDE, type Leg } from './lay-legs.ts';
import { islandOf, type Loops, loopsOf } from './loops.ts';

/** Circuits that hang together and through which no current can flow, whatever is switched: nothing closes their loop. */
export interface OpenCircuit {
  /** In the order of the machine. */
  readonly legs: readonly Leg[];
  /** Nodes that no current reaches, where a wire is likeliest to be missing first. */
  readonly loose: readonly number[];
  /** Nodes where it hangs on circuits that do work, and the islands that these form. */
  readonly anchors: readonly number[];
  readonly islands: ReadonlySet<number>;
}

/** All open circuits of a machine. */
export interface OpenCircuits {
  readonly all: readonly OpenCircuit[];
  /** By `part.circuit`. */
  readonly of: ReadonlyMap<string, OpenCircuit>;
  readonly nodeOf: Int32Array;
  /** The place of a terminal, by which its node is found. */
  readonly placeOf: Conductors['placeOf'];
  /** The terminals of a node, by their names. */
  readonly terminalsOn: (node: number) => readonly string[];
  /** The island that a node is on, where current can flow through it. */
  readonly islandOf: (node: number) => number | undefined;
}

/** What can carry no current, by the loops of the wiring; what an edit left alone is as it was. */
export const openCircuitsOf = fact('machine', (machine: Machine) => tellOpen(loopsOf(machine)));

function tellOpen(loops: Loops): OpenCircuits {
  const { conductors, netOf } = loops.ground;
  const islandAt = tellIslands(loops);
  const unknown = unknownNodes(hiddenSources(conductors), netOf);
  // Beside something unknown only an end that nothing at all is joined to is sure to be open.
  const sure = loops.groups.filter(
    (group) => !touches(group, unknown) || freeEnds(group).some((node) => islandAt(node) === undefined),
  );
  const all = mergeParted(sure, islandAt).flatMap((group) => describe(group, islandAt) ?? []);
  const of = new Map(
    all.flatMap((open) =>
      open.legs.flatMap(({ at }) => (at ? [[terminalId(at.part.name, at.circuit.name), open] as const] : [])),
    ),
  );
  return {
    all,
    of,
    nodeOf: netOf,
    placeOf: conductors.placeOf,
    terminalsOn: listTerminalsLater(conductors.terminals, netOf),
    islandOf: islandAt,
  };
}

/*
 * What was found outlives its version, and a function keeps in memory whatever the functions beside it refer to: so those
 * that are part of it are made by themselves, and none of them by the search, which reads the board.
 */

function listTerminalsLater(
  terminals: readonly string[],
  nodeOf: Int32Array,
): (node: number) => readonly string[] {
  let byNode: ReadonlyMap<number, readonly string[]> | undefined;
  return (node) => {
    byNode ??= groupNames(terminals, nodeOf);
    return byNode.get(node) ?? [];
  };
}

function tellIslands(loops: Loops): OpenCircuits['islandOf'] {
  return (node) => islandOf(loops, node);
}

/** The names of terminals by the node that they are on. */
function groupNames(terminals: readonly string[], nodeOf: Int32Array): Map<number, string[]> {
  const byNode = new Map<number, string[]>();
  for (const [place, node] of nodeOf.entries()) {
    const terminal = terminals[place] ?? '';
    const there = byNode.get(node);
    if (there) there.push(terminal);
    else byNode.set(node, [terminal]);
  }
  return byNode;
}

function touches(legs: readonly Leg[], nodes: ReadonlySet<number>): boolean {
  return legs.some(({ a, b }) => nodes.has(a) || nodes.has(b));
}

/** Nodes where a single leg ends. */
function freeEnds(legs: readonly Leg[]): number[] {
  return [...listLegsAt(legs)].flatMap(([node, there]) => (there.length === 1 ? [node] : []));
}

/** What stands between the same islands without a loose end lacks the same thing: a common of the two. */
function mergeParted(
  groups: readonly (readonly Leg[])[],
  islandOf: (node: number) => number | undefined,
): (readonly Leg[])[] {
  const merged = new Map<string | readonly Leg[], readonly Leg[]>();
  for (const group of groups) {
    const islands = new Set([...listLegsAt(group).keys()].flatMap((node) => islandOf(node) ?? []));
    const isLoose = freeEnds(group).some((node) => islandOf(node) === undefined);
    const key = islands.size > 1 && !isLoose ? [...islands].sort((a, b) => a - b).join(' ') : group;
    merged.set(key, [...(merged.get(key) ?? []), ...group]);
  }
  return [...merged.values()];
}

/**
 * Where a group is open. There must be a node that nothing leads to but what needs a current itself, or two islands:
 * a switch that joins an input to its own return closes a loop, if an idle one, and is judged by what the input sees.
 */
function describe(
  legs: readonly Leg[],
  islandOf: (node: number) => number | undefined,
): OpenCircuit | undefined {
  const legsAt = listLegsAt(legs);
  const nodes = [...legsAt.keys()];
  const anchors = nodes.filter((node) => islandOf(node) !== undefined);
  const islands = new Set(anchors.flatMap((node) => islandOf(node) ?? []));
  const needy = legs.some((leg) => leg.consumes);
  const driven = spread(listLegsAt(legs.filter((leg) => !leg.consumes)), anchors);
  const loose = nodes.filter(
    (node) => node < INSIDE && islandOf(node) === undefined && !(needy && driven.has(node)),
  );
  if (loose.length === 0 && islands.size < 2) return undefined;
  const sources = legs.filter(({ drives }) => drives !== 0).flatMap(({ a, b }) => [a, b]);
  const distance = spread(legsAt, [...anchors, ...sources]);
  const far = (node: number) => distance.get(node) ?? 0;
  const uses = (node: number) => legsAt.get(node)?.length ?? 0;
  const feeds = (node: number) => (legsAt.get(node) ?? []).some((leg) => leg.consumes);
  // An end that leads nowhere first, then what is farthest from all that works, then what most hangs on.
  loose.sort(
    (a, b) =>
      Number(uses(b) === 1) - Number(uses(a) === 1) ||
      far(b) - far(a) ||
      uses(b) - uses(a) ||
      Number(feeds(b)) - Number(feeds(a)) ||
      a - b,
  );
  return { legs, loose, anchors, islands };
}

function listLegsAt(legs: readonly Leg[]): Map<number, Leg[]> {
  const legsAt = new Map<number, Leg[]>();
  for (const leg of legs) {
    for (const node of new Set([leg.a, leg.b])) {
      const there = legsAt.get(node);
      if (there) there.push(leg);
      else legsAt.set(node, [leg]);
    }
  }
  return legsAt;
}

/** How many legs each node is away from some of them. */
function spread(legsAt: ReadonlyMap<number, readonly Leg[]>, starts: readonly number[]): Map<number, number> {
  const distance = new Map<number, number>(starts.map((node) => [node, 0]));
  // The map grows while it is walked through, which makes this a breadth-first search.
  for (const [node, steps] of distance) {
    for (const { a, b } of legsAt.get(node) ?? []) {
      const next = a === node ? b : a;
      if (!distance.has(next)) distance.set(next, steps + 1);
    }
  }
  return distance;
}
