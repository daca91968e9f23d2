import type { Board } from './board.ts';
import type { Changes } from './changes.ts';
import { findGroups, type Group, plainView, spread } from './groups.ts';
import { coilsOf, heldRelays, isHeld } from './relays.ts';

/** How a board falls into groups. */
export interface Grouping {
  readonly board: Board;
  /** Those that an edit did not touch are the same objects as before, so results can be kept under them. */
  readonly groups: readonly Group[];
  /** The place of the group of an element or a free node; it stays while nothing is joined otherwise. */
  readonly places: GroupPlaces;
  /** Parts whose contacts are held in while the machine is on. */
  readonly held: ReadonlySet<string>;
}

/** By element, and by node: -1 for an element that is not there, and for a node that is held. */
interface GroupPlaces {
  readonly ofElement: Int32Array;
  readonly ofNode: Int32Array;
}

/** The group that an element is in. */
export function groupOf({ groups, places }: Cut, element: number): Group | undefined {
  return groups[places.ofElement[element] ?? -1];
}

/** Whether a group is one of these, unchanged since it was cut out. */
export function hasGroup(grouping: Grouping, group: Group): boolean {
  return groupOf(grouping, group.elements[0] ?? -1) === group;
}

/** Cuts a board into groups. */
export function groupBoard(board: Board): Grouping {
  const groups = findGroups(board);
  const places = listPlaces(board, groups);
  const held = heldRelays(board, (element) => groupOf({ groups, places }, element));
  return { board, groups, places, held };
}

/** Cuts a board into groups where something touched those of before; the others stay. */
export function regroupBoard(board: Board, before: Grouping, changes: Changes): Grouping {
  const touched = placesTouched(board, before, changes);
  const cut = changes.isSameLayout ? renew(board, before, touched) : cutAnew(board, before, touched);
  const groupAt = (element: number) => groupOf(cut, element);
  const coils = coilsOf(board);
  const isHeldAsBefore =
    coils.length === coilsOf(before.board).length &&
    coils.every(([place]) => {
      const group = groupAt(place);
      return group !== undefined && hasGroup(before, group);
    });
  const held = isHeldAsBefore ? before.held : heldRelays(board, groupAt);
  const groups = held === before.held ? cut.groups : replaceMoved(board, cut, before, held);
  return { board, groups, places: cut.places, held };
}

type Cut = Pick<Grouping, 'groups' | 'places'>;

/** With nothing joined otherwise, the groups are where they were; only those that were touched are gathered again. */
function renew(board: Board, { groups, places }: Grouping, touched: ReadonlySet<number>): Cut {
  if (touched.size === 0) return { groups, places };
  const renewed = groups.slice();
  for (const place of touched) {
    const group = groups[place];
    if (group) renewed[place] = spread(board, plainView(board), group);
  }
  return { groups: renewed, places };
}

function cutAnew(board: Board, { groups, places: past }: Grouping, touched: ReadonlySet<number>): Cut {
  const cut = findGroups(board, (element) => {
    const place = past.ofElement[element] ?? -1;
    return touched.has(place) ? undefined : groups[place];
  });
  return { groups: cut, places: listPlaces(board, cut) };
}

/** The places of the groups that something was touched of: all others are the same on both boards, with all that was solved of them. */
function placesTouched({ elementsAt }: Board, { places }: Grouping, changes: Changes): ReadonlySet<number> {
  const touched = new Set<number>();
  const touch = (place = -1): void => {
    if (place >= 0) touched.add(place);
  };
  for (const element of changes.elements) touch(places.ofElement[element]);
  for (const node of changes.nodes) touch(places.ofNode[node]);
  for (const terminal of changes.terminals)
    for (const element of elementsAt[terminal] ?? []) touch(places.ofElement[element]);
  return touched;
}

/** Groups with a relay that is held in now and was not, or the other way round, are new ones. */
function replaceMoved(
  board: Board,
  { groups, places }: Cut,
  before: Grouping,
  held: ReadonlySet<string>,
): readonly Group[] {
  const replaced = groups.slice();
  for (const element of board.elements.keys()) {
    if (isHeld(board, held, element) === isHeld(board, before.held, element)) continue;
    const place = places.ofElement[element] ?? -1;
    const group = replaced[place];
    if (group && hasGroup(before, group)) replaced[place] = { ...group };
  }
  return replaced;
}

function listPlaces({ elements: all, nodeOf }: Board, groups: readonly Group[]): GroupPlaces {
  const ofElement = new Int32Array(all.length).fill(-1);
  const ofNode = new Int32Array(nodeOf.length).fill(-1);
  groups.forEach(({ elements, nodes }, place) => {
    for (const element of elements) ofElement[element] = place;
    for (const node of nodes) ofNode[node] = place;
  });
  return { ofElement, ofNode };
}
