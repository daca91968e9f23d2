import type { Board } from './board.ts';
import { type Changes, isUntouched } from './changes.ts';
import { findGroups, type Group, lone, plainView, spread } from './groups.ts';
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

interface GroupPlaces {
  readonly ofElement: ReadonlyMap<number, number>;
  readonly ofNode: ReadonlyMap<number, number>;
}

/** The group that an element is in. */
export function groupOf({ groups, places }: Grouping, element: number): Group | undefined {
  return groups[places.ofElement.get(element) ?? -1];
}

/** Whether a group is one of these, unchanged since it was cut out. */
export function hasGroup(grouping: Grouping, group: Group): boolean {
  return groupOf(grouping, group.elements[0] ?? -1) === group;
}

/** Cuts a board into groups. */
export function groupBoard(board: Board): Grouping {
  const groups = findGroups(board);
  const places = listPlaces(groups);
  const held = heldRelays(board, (element) => groups[places.ofElement.get(element) ?? -1]);
  return { board, groups, places, held };
}

/** Cuts a board into groups where something touched those of before; the others stay. */
export function regroupBoard(board: Board, before: Grouping, changes: Changes): Grouping {
  const cut = changes.isSameLayout ? renew(board, before, changes) : cutAnew(board, before, changes);
  const groupAt = (element: number) => cut.groups[cut.places.ofElement.get(element) ?? -1];
  const isHeldAsBefore = coilsOf(board).every(([place]) => {
    const group = groupAt(place);
    return group !== undefined && hasGroup(before, group);
  });
  const held = isHeldAsBefore ? before.held : heldRelays(board, groupAt);
  const groups = held === before.held ? cut.groups : replaceMoved(board, cut, before, held);
  return { board, groups, places: cut.places, held };
}

type Cut = Pick<Grouping, 'groups' | 'places'>;

/** With nothing joined otherwise, the groups are where they were; only those that were touched are gathered again. */
function renew(board: Board, { groups, places }: Grouping, changes: Changes): Cut {
  const touched = new Set<number>();
  const touch = (place: number | undefined) => {
    if (place !== undefined) touched.add(place);
  };
  for (const element of changes.elements) touch(places.ofElement.get(element));
  for (const node of changes.nodes) touch(places.ofNode.get(node));
  for (const terminal of changes.terminals)
    for (const element of board.elementsAt[terminal] ?? []) touch(places.ofElement.get(element));
  if (touched.size === 0) return { groups, places };
  const renewed = groups.slice();
  for (const place of touched) {
    const group = groups[place];
    if (group) renewed[place] = gather(board, group);
  }
  return { groups: renewed, places };
}

function gather(board: Board, { nodes, elements }: Group): Group {
  return nodes.length > 0 ? spread(board, plainView(board), nodes) : lone(board, elements[0] ?? 0);
}

function cutAnew(board: Board, before: Grouping, changes: Changes): Cut {
  const groups = findGroups(board).map((group) =>
    isUntouched(board, group, changes) ? (groupOf(before, group.elements[0] ?? -1) ?? group) : group,
  );
  return { groups, places: listPlaces(groups) };
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
    const place = places.ofElement.get(element);
    const group = place === undefined ? undefined : replaced[place];
    if (place !== undefined && group && hasGroup(before, group)) replaced[place] = { ...group };
  }
  return replaced;
}

function listPlaces(groups: readonly Group[]): GroupPlaces {
  const ofElement = new Map<number, number>();
  const ofNode = new Map<number, number>();
  for (const [place, { elements, nodes }] of groups.entries()) {
    for (const element of elements) ofElement.set(element, place);
    for (const node of nodes) ofNode.set(node, place);
  }
  return { ofElement, ofNode };
}
