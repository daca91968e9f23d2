import { terminalId } from '../../model/terminal-id.ts';
import { isSameList } from '../../same-list.ts';
import type { Board } from '../solve/board.ts';
import type { Conductors } from '../solve/conductors.ts';
import { idleLegs } from './idle.ts';
import { type Leg, layLegs } from './lay-legs.ts';
import { meantLegs } from './meant-legs.ts';
import { createSets, type Sets } from './sets.ts';

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

/** What was found, and what it was found in. */
interface Kept {
  readonly read: readonly unknown[];
  readonly found: OpenCircuits;
}

/** By the layout of the wiring: figures of wires and settings of parts change nothing about what hangs together. */
const kept = new WeakMap<object, Kept>();

/** Finds what can carry no current, in one pass over the machine that is kept while nothing is joined otherwise. */
export function openCircuitsOf(board: Board): OpenCircuits {
  const read = [board.nodeOf, board.supplies, ...board.machine.parts.values()];
  const known = kept.get(board.layout);
  if (known && isSameList(known.read, read)) return known.found;
  const found = findOpenCircuits(board);
  kept.set(board.layout, { read, found });
  return found;
}

function findOpenCircuits(board: Board): OpenCircuits {
  const { conductors, netOf: nodeOf } = board;
  const { legs, nodes, unknown } = layLegs(board, nodeOf);
  const holdOf = (node: number) => board.rails.holds.get(board.nodeOf[node] ?? -1);
  const idle = idleLegs(nodes, legs, holdOf);
  const isLive = new Uint8Array(nodes);
  const islands = createSets(nodes);
  const firstOf = new Map<unknown, number>();
  const joinAll = (name: unknown, node: number) => {
    const first = firstOf.get(name) ?? node;
    firstOf.set(name, first);
    isLive[node] = 1;
    islands.join(first, node);
  };
  const joinHeld = (node: number) => {
    const hold = holdOf(node);
    if (hold) joinAll(hold.island, node);
  };
  for (let index = 0; index < legs.length; index++) {
    const leg = legs[index];
    if (!leg) continue;
    joinHeld(leg.a);
    joinHeld(leg.b);
    if (idle[index] && !isSupply(leg)) continue;
    isLive[leg.a] = 1;
    isLive[leg.b] = 1;
    islands.join(leg.a, leg.b);
  }
  const meant = meantLegs(board, legs, idle);
  const parts = createSets(nodes);
  for (const { a, b } of meant) if (!isLive[a] && !isLive[b]) parts.join(a, b);
  const groups = new Map<number | Leg, Leg[]>();
  for (const leg of meant) {
    // A leg between two live nodes is a mistake of its own: the two islands have no common.
    const key = !isLive[leg.a] ? parts.find(leg.a) : !isLive[leg.b] ? parts.find(leg.b) : leg;
    const there = groups.get(key);
    if (there) there.push(leg);
    else groups.set(key, [leg]);
  }
  const islandOf = tellIslands(isLive, islands);
  // Beside something unknown only an end that nothing at all is joined to is sure to be open.
  const sure = [...groups.values()].filter(
    (group) => !touches(group, unknown) || freeEnds(group).some((node) => !isLive[node]),
  );
  const all = mergeParted(sure, islandOf).flatMap(
    (group) => describe(group, conductors.terminals.length, islandOf) ?? [],
  );
  const of = new Map(
    all.flatMap((open) =>
      open.legs.flatMap(({ at }) => (at ? [[terminalId(at.part.name, at.circuit.name), open] as const] : [])),
    ),
  );
  return {
    all,
    of,
    nodeOf,
    placeOf: conductors.placeOf,
    terminalsOn: listTerminalsLater(conductors.terminals, nodeOf),
    islandOf,
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

function tellIslands(isLive: Uint8Array, islands: Sets): OpenCircuits['islandOf'] {
  return (node) => (isLive[node] ? islands.find(node) : undefined);
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

/** Supplies hold their ends whether or not a current flows yet. */
function isSupply({ at }: Leg): boolean {
  return at === undefined || at.circuit.kind === 'power-out';
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
  terminals: number,
  islandOf: (node: number) => number | undefined,
): OpenCircuit | undefined {
  const legsAt = listLegsAt(legs);
  const nodes = [...legsAt.keys()];
  const anchors = nodes.filter((node) => islandOf(node) !== undefined);
  const islands = new Set(anchors.flatMap((node) => islandOf(node) ?? []));
  const needy = legs.some((leg) => leg.consumes);
  const driven = spread(listLegsAt(legs.filter((leg) => !leg.consumes)), anchors);
  const loose = nodes.filter(
    (node) => node < terminals && islandOf(node) === undefined && !(needy && driven.has(node)),
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
