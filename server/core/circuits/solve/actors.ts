import type { Board } from './board.ts';
import type { Element, Mover } from './element.ts';
import type { Group } from './groups.ts';

/** What one hand, one cam or one transistor changes at a time: the contacts of a button open and close together. */
export interface Actor {
  /** `near-x`, or `panel.x-pulse` for one output among several of a part. */
  readonly name: string;
  readonly part: string;
  readonly mover: Mover;
  /** Places on the board, within one group. */
  readonly elements: readonly number[];
}

/** What can change in a group, in the order of the machine. */
export function actorsIn(board: Board, group: Group): Actor[] {
  const byName = new Map<string, { first: Element; elements: number[] }>();
  for (const place of group.elements) {
    const element = board.elements[place];
    if (element?.mover === undefined) continue;
    const name = nameActor(element);
    const there = byName.get(name);
    if (there) there.elements.push(place);
    else byName.set(name, { first: element, elements: [place] });
  }
  return [...byName].map(([name, { first, elements }]) => ({
    name,
    part: first.at.part.name,
    mover: first.mover ?? 'contact',
    elements,
  }));
}

/** Contacts without a purpose of their own move with their part; those with one (`axis-select X`) by themselves. */
function nameActor({ at, mover }: Element): string {
  const { part, circuit } = at;
  const together =
    mover === 'relay' || mover === 'sensor' || (mover === 'contact' && circuit.does === undefined);
  return together ? part.name : `${part.name}.${circuit.name}`;
}
