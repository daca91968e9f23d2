import type { Machine } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import { circuitsOf } from '../solve/solved.ts';
import { type Flows, findFlows } from './flows.ts';
import { INSIDE, type Leg } from './lay-legs.ts';
import { type Ground, groundOf, type Region, regionBetween, wholeOf } from './region.ts';
import { sitesOf } from './sites.ts';

/** What can flow in a machine, with what that was found in. */
export interface Loops extends Pick<Flows, 'groups' | 'joined' | 'bridging'> {
  readonly ground: Ground;
  readonly islands: Islands;
}

/** The islands of nodes that no supply holds, by node and by site for those inside; -1 where no current can flow. */
interface Islands {
  readonly at: Int32Array;
  readonly inside: Int32Array;
}

/** Regions that an edit left alone are as they were. */
export const loopsOf = fact('machine', findLoops);

function findLoops(machine: Machine, before: Loops | undefined): Loops {
  const { board } = circuitsOf(machine).solved;
  const ground = groundOf(board, machine);
  const past = before?.ground.conductors.frame.shape === board.conductors.frame.shape ? before : undefined;
  const region = past ? regionBetween(past.ground, ground, past.bridging) : wholeOf(ground);
  // Where something is called otherwise, terminals are looked up by other names.
  if (past && !region) return past.ground.conductors.at === ground.conductors.at ? past : { ...past, ground };
  return takeIn(ground, region ?? wholeOf(ground), past);
}

/** What was found anew in a region, and what was known of the others. */
function takeIn(ground: Ground, region: Region, past: Loops | undefined): Loops {
  const { groups, islands, joined, bridging } = findFlows(ground, region);
  const sites = new Set(region.sites);
  const others = past?.groups.filter((group) => !sites.has(siteOf(group))) ?? [];
  return {
    ground,
    groups: [...others, ...groups].sort((a, b) => siteOf(a) - siteOf(b)),
    islands: setIslands(ground, region, islands, past?.islands),
    joined,
    bridging,
  };
}

function siteOf([first]: readonly Leg[]): number {
  return first?.site ?? -1;
}

function setIslands(
  { conductors, netOf }: Ground,
  region: Region,
  found: Flows['islands'],
  past: Islands | undefined,
): Islands {
  const at = new Int32Array(netOf.length).fill(-1);
  const inside = new Int32Array(sitesOf(conductors.frame).all.length).fill(-1);
  if (past) {
    at.set(past.at.subarray(0, at.length));
    inside.set(past.inside);
  }
  for (const terminal of region.terminals) at[terminal] = -1;
  for (const site of region.sites) inside[site] = -1;
  for (const [node, island] of found) {
    if (node < INSIDE) at[node] = island;
    else inside[node - INSIDE] = island;
  }
  return { at, inside };
}

/** The island that a node is on, where current can flow through it. */
export function islandOf({ ground, islands, joined }: Loops, node: number): number | undefined {
  const hold = ground.holds.get(ground.nodeOf[node] ?? -1);
  const known = node < INSIDE ? islands.at[node] : islands.inside[node - INSIDE];
  const island = hold?.island ?? known ?? -1;
  return island < 0 ? undefined : (joined.get(island) ?? island);
}
