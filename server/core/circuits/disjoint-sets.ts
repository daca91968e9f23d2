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
  /** By number, as is what follows; empty at the numbers of other versions. */
  private readonly parents: number[] = [];
  /** The next member of the same set, round in a circle. */
  private readonly next: number[] = [];
  /** How many names this version named before. */
  private readonly order: number[] = [];
  private named = 0;
  /** The members of the sets that were asked for; those of before for sets that are still the same. */
  private readonly lists = new Map<number, readonly TerminalId[]>();
  private readonly past: DisjointSets['lists'] | undefined;

  /** @param before the sets of an earlier version, whose numbers and lists are used again */
  constructor(before?: DisjointSets) {
    const isUsable = before !== undefined && before.numbering.names.length < MOST_NAMES;
    this.numbering = isUsable ? before.numbering : { ids: new Map(), names: [] };
    this.past = isUsable ? before.lists : undefined;
  }

  /** Whether sets have the same numbers here as in an earlier version. */
  countsLike(before: DisjointSets): boolean {
    return this.numbering === before.numbering;
  }

  /** The number of the set that a name is in; one that was not joined to anything is in a set of its own. */
  find(name: TerminalId): number {
    return this.root(this.idOf(name));
  }

  join(a: TerminalId, b: TerminalId): void {
    const [idA, idB] = [this.idOf(a), this.idOf(b)];
    const [rootA, rootB] = [this.root(idA), this.root(idB)];
    if (rootA === rootB) return;
    this.parents[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
    // Two circles become one when each goes on in the other.
    const next = this.next[idA] ?? idA;
    this.next[idA] = this.next[idB] ?? idB;
    this.next[idB] = next;
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
    if (this.parents[root] === undefined) return [];
    const ids = [root];
    for (let id = this.next[root] ?? root; id !== root; id = this.next[id] ?? root) ids.push(id);
    ids.sort((a, b) => (this.order[a] ?? 0) - (this.order[b] ?? 0));
    return ids.map((id) => this.numbering.names[id] ?? '');
  }

  private idOf(name: TerminalId): number {
    const { ids, names } = this.numbering;
    let id = ids.get(name);
    if (id === undefined) {
      id = names.push(name) - 1;
      ids.set(name, id);
    }
    if (this.parents[id] === undefined) {
      this.parents[id] = id;
      this.next[id] = id;
      this.order[id] = this.named++;
    }
    return id;
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
