import type { Part } from '../../model/machine.ts';
import { type Machine, partsWithSheets } from '../../model/resolve.ts';
import { countSameEndsBy } from '../../same-ends.ts';
import { isSameList } from '../../same-list.ts';
import type { Board } from '../solve/board.ts';
import { partIn } from '../solve/whereabouts.ts';
import { endsOfOthers, hasSameSlot } from '../ways.ts';
import { hiddenSources } from './hidden.ts';
import { sitesOf } from './sites.ts';

/** Circuits that hang together without going through what a supply holds: of others they feel nothing but the supplies. */
export interface Region extends Circuits {
  /** All terminals that it reaches. */
  readonly terminals: Iterable<number>;
}

/** The circuits of a region. */
export interface Circuits {
  /** The places of the sites, in the order of the machine. */
  readonly sites: readonly number[];
  /** The terminals of the mains and of unknown parts that are in it, by their part. */
  readonly hidden: ReadonlyMap<string, readonly number[]>;
}

/** What loops are looked for in; what is not in a region that differs here is as it was. */
export type Ground = Pick<Board, 'conductors' | 'nodeOf' | 'netOf'> & {
  readonly holds: Board['rails']['holds'];
  /** By seat of the frame; undefined where a part has lost its sheet. */
  readonly parts: readonly (Part | undefined)[];
};

/** The ground of a machine's board; the parts may have got other texts since the board was laid. */
export function groundOf(
  { conductors, nodeOf, netOf, rails }: Board,
  machine: Pick<Machine, 'parts'>,
): Ground {
  // The seats that are not free are those of the parts with sheets, in their order.
  const taken = partsWithSheets(machine).values();
  const parts = conductors.frame.seats.map(({ isFree }) => (isFree ? undefined : taken.next().value?.part));
  return { conductors, nodeOf, netOf, holds: rails.holds, parts };
}

/** All of a machine. */
export function wholeOf({ conductors }: Ground): Region {
  return {
    sites: [...sitesOf(conductors.frame).all.keys()],
    hidden: hiddenSources(conductors),
    terminals: conductors.terminals.keys(),
  };
}

/** Where an edit touched the ground. */
interface Touched {
  readonly terminals: Set<number>;
  readonly sites: Set<number>;
}

/**
 * What has to be looked at anew of a machine whose parts have the same sheets as before.
 * @param besides what must be looked at together with whatever else is
 * @returns undefined where that is nothing
 */
export function regionBetween(before: Ground, now: Ground, besides: Circuits): Region | undefined {
  const touched = compare(before, now);
  if (touched.terminals.size === 0 && touched.sites.size === 0) return undefined;
  return spread(now, touched, besides);
}

function compare(before: Ground, now: Ground): Touched {
  const past = before.conductors;
  const present = now.conductors;
  const touched: Touched = { terminals: new Set(), sites: new Set() };
  // While every conductor joins what it joined, it has the same ends, and as many of them are links.
  if (past.at !== present.at) {
    const same = countSameEndsBy(past.all, present.all, hasSameSlot);
    for (const end of endsOfOthers(past.all, present.all, same)) touched.terminals.add(end);
  }
  const held = heldOtherwise(before, now);
  // Who has come to a held node, or has left it, is reached from nowhere else: nothing is felt through it.
  if (before.netOf !== now.netOf || held.size > 0) {
    const isOther = (terminal: number) => {
      const was = before.netOf[terminal] ?? -1;
      const is = now.netOf[terminal] ?? -1;
      return was !== is || held.has(was);
    };
    for (let terminal = 0; terminal < now.netOf.length; terminal++)
      if (isOther(terminal)) touched.terminals.add(terminal);
  }
  const first = present.frame.terminals.length;
  if (!isSameList(past.terminals.slice(first), present.terminals.slice(first)))
    for (let place = first; place < present.terminals.length; place++) touched.terminals.add(place);
  const { starts } = sitesOf(present.frame);
  for (let seat = 0; seat < now.parts.length; seat++) {
    if (now.parts[seat] === before.parts[seat]) continue;
    for (let site = starts[seat] ?? 0; site < (starts[seat + 1] ?? 0); site++) touched.sites.add(site);
  }
  return touched;
}

/** The nodes that supplies have come to hold, hold no more, or hold at another voltage. */
function heldOtherwise({ holds: past }: Ground, { holds: present }: Ground): ReadonlySet<number> {
  const nodes = new Set<number>();
  if (past === present) return nodes;
  for (const node of [...past.keys(), ...present.keys()]) {
    const was = past.get(node);
    const is = present.get(node);
    if (was?.island !== is?.island || was?.volts !== is?.volts) nodes.add(node);
  }
  return nodes;
}

/** All that hangs together with what was touched. */
function spread({ conductors, nodeOf, holds }: Ground, touched: Touched, besides: Circuits): Region {
  const { all, at } = sitesOf(conductors.frame);
  const hiddenOf = hiddenSources(conductors);
  const sites = new Set([...touched.sites, ...besides.sites]);
  const hidden = new Set(besides.hidden.keys());
  const terminals = new Set(touched.terminals);
  const isHeld = (terminal: number) => holds.has(nodeOf[terminal] ?? -1);
  /** Through what a supply holds nothing is felt. */
  const reach = (ends: readonly number[]) => {
    for (const end of ends) if (!isHeld(end)) terminals.add(end);
  };
  for (const site of sites) reach(all[site]?.ends ?? []);
  for (const part of hidden) reach(hiddenOf.get(part) ?? []);
  // The sets grow while they are walked through.
  for (const terminal of terminals) {
    for (const site of at(terminal)) {
      if (sites.has(site)) continue;
      sites.add(site);
      reach(all[site]?.ends ?? []);
    }
    const part =
      terminal < conductors.frame.terminals.length ? undefined : partIn(conductors.terminals[terminal] ?? '');
    if (part !== undefined && hiddenOf.get(part)?.includes(terminal) && !hidden.has(part)) {
      hidden.add(part);
      reach(hiddenOf.get(part) ?? []);
    }
    if (isHeld(terminal)) continue;
    for (const place of conductors.at[terminal] ?? []) {
      const { a = terminal, b = terminal } = conductors.all[place] ?? {};
      terminals.add(a === terminal ? b : a);
    }
  }
  return {
    sites: [...sites].sort((a, b) => a - b),
    hidden: new Map([...hiddenOf].filter(([part]) => hidden.has(part))),
    terminals,
  };
}
