import type { TerminalId } from '../model/terminal-id.ts';
import { isSameList } from '../same-list.ts';

/** More names than this are not remembered for later versions. */
const MOST_NAMES = 100_000;

/** The numbers of names, which all versions of a machine share, so that a set keeps its number whatever else is joined. */
interface Numbering {
  readonly ids: Map<TerminalId, number>;
  readonly names: TerminalId[];
}

/** Union-find over names (Tarjan, 1975), with the members of each set. */
export class DisjointSets {
  /** The numbers of names that are gone stay unused. */
  private readonly numbering: Numbering;
  /** By number, as is what follows; -1 at the numbers of other versions. */
  private parents: Int32Array;
  /** The next member of the same set, round in a circle. */
  private next: Int32Array;
  /** How many names this version named before. */
  private order: Int32Array;
  private named = 0;
  /** The members of the sets that were asked for; those of before for sets that are still the same. */
  private readonly lists = new Map<number, readonly TerminalId[]>();
  private readonly past: DisjointSets['lists'] | undefined;

  /** @param before the sets of an earlier version, whose numbers and lists are used again */
  constructor(before?: DisjointSets) {
    const isUsable = before !== undefined && before.numbering.names.length < MOST_NAMES;
    this.numbering = isUsable ? before.numbering : { ids: new Map(), names: [] };
    this.past = isUsable ? before.lists : undefined;
    [this.parents, this.next, this.order] = makeRoom(this.numbering.names.length);
  }

  /** Whether sets have the same numbers here as in an earlier version. */
  countsLike(before: DisjointSets): boolean {
    return this.numbering === before.numbering;
  }

  /** The number of the set that a name is in; one that was not joined to anything is in a set of its own. */
  find(name: TerminalId): number {
    return this.root(this.numberOf(name));
  }

  /** Joins two names by their numbers. */
  join(a: number, b: number): void {
    const rootA = this.root(a);
    const rootB = this.root(b);
    if (rootA === rootB) return;
    this.parents[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
    // Two circles become one when each goes on in the other.
    const next = this.next[a] ?? a;
    this.next[a] = this.next[b] ?? b;
    this.next[b] = next;
  }

  /** The names in a set, in the order in which they were named; the same list as before where they are the same. */
  members(root: number): readonly TerminalId[] {
    let list = this.lists.get(root);
    if (!list) {
      list = this.walk(root);
      const past = this.past?.get(root);
      if (past && isSameList(past, list)) list = past;
      this.lists.set(root, list);
    }
    return list;
  }

  private walk(root: number): readonly TerminalId[] {
    if (!this.isNamed(root)) return [];
    const ids = [root];
    for (let id = this.next[root] ?? root; id !== root; id = this.next[id] ?? root) ids.push(id);
    ids.sort((a, b) => (this.order[a] ?? 0) - (this.order[b] ?? 0));
    return ids.map((id) => this.numbering.names[id] ?? '');
  }

  /** The number of a name, which is in a set from now on. */
  numberOf(name: TerminalId): number {
    const { ids, names } = this.numbering;
    let id = ids.get(name);
    if (id === undefined) {
      id = names.push(name) - 1;
      ids.set(name, id);
    }
    return this.enter(id);
  }

  /** Names what has a number already. */
  enter(id: number): number {
    if (this.isNamed(id)) return id;
    if (id >= this.parents.length)
      [this.parents, this.next, this.order] = makeRoom(this.numbering.names.length, [
        this.parents,
        this.next,
        this.order,
      ]);
    this.parents[id] = id;
    this.next[id] = id;
    this.order[id] = this.named++;
    return id;
  }

  private isNamed(id: number): boolean {
    return (this.parents[id] ?? -1) >= 0;
  }

  private root(id: number): number {
    let at = id;
    for (let up = this.parents[at] ?? at; up !== at; up = this.parents[at] ?? at) {
      this.parents[at] = this.parents[up] ?? up; // halves the path, so that later look-ups are short
      at = this.parents[at] ?? at;
    }
    return at;
  }
}

type Lists = [parents: Int32Array, next: Int32Array, order: Int32Array];

/** Lists for so many names and half as many more, with what stood in those that became too short. */
function makeRoom(names: number, full?: Lists): Lists {
  const longer = (which: number): Int32Array => {
    const list = new Int32Array(16 + Math.ceil(names * 1.5)).fill(-1);
    const past = full?.[which];
    if (past) list.set(past);
    return list;
  };
  return [longer(0), longer(1), longer(2)];
}
