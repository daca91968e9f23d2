import { groupBy } from '../../group.ts';
import { createSets } from '../sets.ts';
import type { Hold } from '../solve/rails.ts';
import { idleLegs } from './idle.ts';
import { type Leg, layLegs } from './lay-legs.ts';
import { meantLegs } from './meant-legs.ts';
import type { Circuits, Ground, Region } from './region.ts';
import { sitesOf } from './sites.ts';

/** What can flow in a region. */
export interface Flows {
  /** Legs that somebody meant to be used, that carry nothing and hang together, in the order of the machine. */
  readonly groups: readonly (readonly Leg[])[];
  /** By node that no supply holds: its island, by the number of one of its nodes; none where no current can flow. */
  readonly islands: ReadonlyMap<number, number>;
  /** The islands of supplies that circuits join to another one. */
  readonly joined: ReadonlyMap<number, number>;
  /** What hangs on several islands of supplies, which may close one another's loops. */
  readonly bridging: Circuits;
}

/** Finds what can flow in a region; nothing outside it makes a difference, but for what the supplies hold. */
export function findFlows(ground: Ground, region: Region): Flows {
  const legs = layLegs(ground, region);
  const holdOf = (node: number) => ground.holds.get(ground.nodeOf[node] ?? -1);
  const idle = idleLegs(legs, holdOf);
  const { nodes, ends } = numberNodes(legs);
  const holds = nodes.map(holdOf);
  const isLive = new Uint8Array(nodes.length);
  const islands = createSets(nodes.length);
  const firstOf = new Map<number, number>();
  for (const [node, hold] of holds.entries()) {
    if (!hold) continue;
    const first = firstOf.get(hold.island) ?? node;
    firstOf.set(hold.island, first);
    isLive[node] = 1;
    islands.join(first, node);
  }
  for (const [place, leg] of legs.entries()) {
    if (idle[place] && !isSupply(leg)) continue;
    const a = ends[2 * place] ?? 0;
    const b = ends[2 * place + 1] ?? 0;
    isLive[a] = 1;
    isLive[b] = 1;
    islands.join(a, b);
  }
  const named = nameIslands(nodes, holds, islands.find);
  return {
    groups: groupMeant(ground, legs, idle, { ends, isLive }),
    islands: new Map(
      nodes.flatMap((node, place) =>
        isLive[place] && !holds[place] ? [[node, named.nameOf(islands.find(place))] as const] : [],
      ),
    ),
    joined: named.joined,
    bridging: findBridging(ground, region, { legs, holds, ends }),
  };
}

/** Numbers for the nodes of legs, from 0 without a gap; `ends` has those of each leg, one after the other. */
function numberNodes(legs: readonly Leg[]): { readonly nodes: readonly number[]; readonly ends: Int32Array } {
  const numbers = new Map<number, number>();
  const ends = new Int32Array(2 * legs.length);
  const numberOf = (node: number): number => {
    const number = numbers.get(node) ?? numbers.size;
    numbers.set(node, number);
    return number;
  };
  for (const [place, { a, b }] of legs.entries()) {
    ends[2 * place] = numberOf(a);
    ends[2 * place + 1] = numberOf(b);
  }
  return { nodes: [...numbers.keys()], ends };
}

/** Supplies hold their ends whether or not a current flows yet. */
function isSupply({ at }: Leg): boolean {
  return at === undefined || at.circuit.kind === 'power-out';
}

/** An island is called as its supplies call it, else after one of its nodes. */
function nameIslands(
  nodes: readonly number[],
  holds: readonly (Hold | undefined)[],
  find: (node: number) => number,
): { readonly nameOf: (root: number) => number; readonly joined: ReadonlyMap<number, number> } {
  const names = new Map<number, number>();
  const joined = new Map<number, number>();
  for (const [node, hold] of holds.entries()) {
    if (!hold) continue;
    const known = names.get(find(node));
    if (known === undefined) names.set(find(node), hold.island);
    else if (known !== hold.island) joined.set(hold.island, known);
  }
  return { nameOf: (root) => names.get(root) ?? nodes[root] ?? root, joined };
}

/** Those of the meant legs that hang together over nodes through which nothing flows. */
function groupMeant(
  ground: Ground,
  legs: readonly Leg[],
  idle: Uint8Array,
  { ends, isLive }: { readonly ends: Int32Array; readonly isLive: Uint8Array },
): readonly (readonly Leg[])[] {
  const meant = meantLegs(ground, legs, idle);
  const parts = createSets(isLive.length);
  const endsOf = (place: number) => [ends[2 * place] ?? 0, ends[2 * place + 1] ?? 0] as const;
  for (const place of meant) {
    const [a, b] = endsOf(place);
    if (!isLive[a] && !isLive[b]) parts.join(a, b);
  }
  const groups = groupBy(meant, (place) => {
    const [a, b] = endsOf(place);
    // A leg between two live nodes is a mistake of its own: the two islands have no common.
    return !isLive[a] ? parts.find(a) : !isLive[b] ? parts.find(b) : legs[place];
  });
  return [...groups.values()].map((group) => group.flatMap((place) => legs[place] ?? []));
}

/** Finds what hangs on several islands, through whatever does not lead over a supply. */
function findBridging(
  { conductors }: Ground,
  { sites, hidden }: Region,
  {
    legs,
    holds,
    ends,
  }: {
    readonly legs: readonly Leg[];
    readonly holds: readonly (Hold | undefined)[];
    readonly ends: Int32Array;
  },
): Circuits {
  // Beyond the nodes each site has a number of its own, which is joined to all of its nodes that no supply holds.
  const numbers = new Map<number, number>();
  for (const { site } of legs) if (!numbers.has(site)) numbers.set(site, holds.length + numbers.size);
  const pieces = createSets(holds.length + numbers.size);
  for (const [end, node] of ends.entries())
    if (!holds[node]) pieces.join(node, numbers.get(legs[end >> 1]?.site ?? -1) ?? node);
  const islandOf = new Map<number, number>();
  const bridging = new Set<number>();
  for (const [end, node] of ends.entries()) {
    const island = holds[node]?.island;
    if (island === undefined) continue;
    const piece = pieces.find(numbers.get(legs[end >> 1]?.site ?? -1) ?? node);
    const known = islandOf.get(piece);
    if (known === undefined) islandOf.set(piece, island);
    else if (known !== island) bridging.add(piece);
  }
  if (bridging.size === 0) return { sites: [], hidden: new Map() };
  const isBridging = (site: number) => bridging.has(pieces.find(numbers.get(site) ?? -1));
  const first = sitesOf(conductors.frame).all.length;
  return {
    sites: sites.filter((site) => numbers.has(site) && isBridging(site)),
    hidden: new Map([...hidden].filter((_, place) => isBridging(first + place))),
  };
}
