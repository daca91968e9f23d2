import { MAINS, partsWithSheets } from '../../model/resolve.ts';
import { terminalId } from '../nets.ts';
import type { CircuitAt } from '../signals.ts';
import { type Board, joinTerminals } from '../solve/board.ts';
import type { Edge } from './blocks.ts';
import { idleLegs } from './idle.ts';
import { consumes, DRIVES, type LegShape, legsOf } from './legs.ts';
import { createSets } from './sets.ts';

/** A leg of a circuit on the machine; its nodes are the lowest of the terminals that wires, fuses and commons join. */
export interface Leg extends Edge, LegShape {
  /** Undefined for the supply network. */
  readonly at: CircuitAt | undefined;
  readonly consumes: boolean;
}

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
  readonly placeOf: (terminal: string) => number | undefined;
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

function isSameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, index) => each === b[index]);
}

function findOpenCircuits(board: Board): OpenCircuits {
  const { conductors } = board;
  const nodeOf = joinTerminals(conductors, board.supplies, () => true);
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
  for (const [index, leg] of legs.entries()) {
    const { a, b } = leg;
    for (const node of [a, b]) {
      const hold = holdOf(node);
      if (hold) joinAll(hold.island, node);
    }
    if (idle[index] && !isSupply(leg)) continue;
    isLive[a] = 1;
    isLive[b] = 1;
    islands.join(a, b);
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
  const islandOf = (node: number) => (isLive[node] ? islands.find(node) : undefined);
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
  const byNode = new Map<number, string[]>();
  for (const [place, node] of nodeOf.entries()) {
    const terminal = conductors.terminals[place] ?? '';
    const there = byNode.get(node);
    if (there) there.push(terminal);
    else byNode.set(node, [terminal]);
  }
  return {
    all,
    of,
    nodeOf,
    placeOf: (terminal) => conductors.placeOf.get(terminal),
    terminalsOn: (node) => byNode.get(node) ?? [],
    islandOf,
  };
}

interface Network {
  readonly legs: readonly Leg[];
  readonly nodes: number;
  /** Nodes with a terminal of which nobody knows what is behind it. */
  readonly unknown: ReadonlySet<number>;
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

/** The legs of all circuits, and of the supply network as far as links name it. */
function layLegs(board: Board, nodeOf: Int32Array): Network {
  const { machine, conductors } = board;
  const legs: Leg[] = [];
  let nodes = conductors.terminals.length;
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      const ends = circuit.ends.map(
        (end) => nodeOf[conductors.placeOf.get(terminalId(part.name, end.text)) ?? -1],
      );
      const inner = nodes;
      const at = { part, circuit };
      for (const shape of legsOf(circuit)) {
        const [a, b] = [shape.from, shape.to].map((end) => (end < 3 ? ends[end] : inner));
        if (a === undefined || b === undefined) continue;
        if (b === inner) nodes = inner + 1;
        legs.push({ ...shape, a, b, at, consumes: consumes(circuit, shape, sheet.partClass) });
      }
    }
  }
  // The mains, and whatever is behind terminals of which nothing is known, drive currents between their own terminals.
  const middles = new Map<string, number>();
  const unknown = new Set<number>();
  for (const [a, part] of hiddenSources(board, nodeOf)) {
    const b = middles.get(part) ?? nodes++;
    middles.set(part, b);
    if (part !== MAINS) unknown.add(a);
    legs.push({ from: 0, to: 3, drives: DRIVES, isOneWay: false, a, b, at: undefined, consumes: false });
  }
  return { legs, nodes, unknown };
}

/** Circuits that feed the whole part, and are meant to work as soon as anything is joined to them. */
const LOADS: ReadonlySet<string> = new Set(['power-in', 'mains-in']);

/** Circuits whose first end carries the signal; the others are the return or the supply of the part. */
const SIGNALS: ReadonlySet<string> = new Set([
  'sink-out',
  'source-out',
  'push-pull-out',
  'pulled-up-in',
  'pulled-down-in',
  'analog-out',
  'analog-in',
]);

/**
 * The idle legs that somebody meant to be used: a terminal that belongs to their circuit alone is wired. Outputs,
 * inputs and contacts that nobody uses have theirs free, and one side of a changeover contact often is.
 */
function meantLegs(board: Board, legs: readonly Leg[], idle: Uint8Array): Leg[] {
  const { conductors } = board;
  const isWired = (terminal: string) =>
    (conductors.at[conductors.placeOf.get(terminal) ?? -1] ?? []).some(
      (place) => conductors.all[place]?.link !== undefined,
    );
  const uses = countUses(legs);
  const working = new Set(legs.flatMap(({ at }, index) => (idle[index] ? [] : at)));
  return legs.filter(({ at, to }, index) => {
    if (!idle[index] || !at || at.circuit.kind === 'power-out') return false;
    const { part, circuit } = at;
    const ends = circuit.ends.map((end) => terminalId(part.name, end.text));
    if (LOADS.has(circuit.kind)) return ends.some(isWired);
    if (SIGNALS.has(circuit.kind)) return isWired(ends[0] ?? '');
    if (circuit.kind === 'changeover') {
      const [, ...throws] = ends;
      if (working.has(at) || (throws.some(isWired) && !isWired(ends[to] ?? ''))) return false;
    }
    const own = ends.filter((end) => uses.get(end) === 1);
    return (own.length > 0 ? own : ends).some(isWired);
  });
}

/** How many circuits end on each terminal. */
function countUses(legs: readonly Leg[]): Map<string, number> {
  const uses = new Map<string, number>();
  for (const at of new Set(legs.map((leg) => leg.at))) {
    for (const end of at?.circuit.ends ?? []) {
      const terminal = terminalId(at?.part.name ?? '', end.text);
      uses.set(terminal, (uses.get(terminal) ?? 0) + 1);
    }
  }
  return uses;
}

/** Nodes with a terminal of the mains, or one of which nobody knows what is behind it; and the part that it is of. */
function hiddenSources({ machine, conductors }: Board, nodeOf: Int32Array): [node: number, part: string][] {
  const known = new Set<string>([terminalId(MAINS, 'PE')]);
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const { ends } of sheet.circuits.values())
      for (const end of ends) known.add(terminalId(part.name, end.text));
  }
  return conductors.terminals.flatMap((terminal, place): [number, string][] => {
    const node = nodeOf[place];
    if (node === undefined || known.has(terminal)) return [];
    return [[node, terminal.slice(0, terminal.indexOf('.'))]];
  });
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
