import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';

/** A terminal of the machine, `part.terminal`. */
export type TerminalId = string;

/** What the wiring joins: terminals with one another through links, and through what is common inside a part. */
export interface Nets {
  /** The net that a terminal is on; terminals that nothing reaches are on a net of their own. */
  readonly netOf: (terminal: TerminalId) => number;
  /** True when at least one link ends here. */
  readonly isWired: (terminal: TerminalId) => boolean;
  readonly linksAt: (terminal: TerminalId) => readonly Link[];
  readonly terminalsOn: (net: number) => readonly TerminalId[];
}

/** Names a terminal of a part. */
export function terminalId(part: string, terminal: string): TerminalId {
  return `${part}.${terminal}`;
}

/** Joins all terminals into nets. Links to parts or terminals that do not exist count too: their ends are joined. */
export function buildNets(machine: Machine): Nets {
  const sets = new DisjointSets();
  const links = new Map<TerminalId, Link[]>();
  const noteLink = (terminal: TerminalId, link: Link) => {
    const there = links.get(terminal);
    if (there) there.push(link);
    else links.set(terminal, [link]);
  };
  for (const link of machine.links) {
    const from = terminalId(link.from.part, link.from.terminal);
    const to = terminalId(link.to.part, link.to.terminal);
    sets.join(from, to);
    noteLink(from, link);
    noteLink(to, link);
  }
  for (const part of machine.parts.values()) {
    for (const circuit of part.sheet?.circuits.values() ?? []) {
      if (circuit.kind !== 'joined') continue;
      const [first, ...others] = circuit.ends.map((end) => terminalId(part.name, end.text));
      for (const other of others) if (first !== undefined) sets.join(first, other);
    }
  }
  return {
    netOf: (terminal) => sets.find(terminal),
    isWired: (terminal) => links.has(terminal),
    linksAt: (terminal) => links.get(terminal) ?? [],
    terminalsOn: (net) => sets.members(net),
  };
}

/** Union-find over names, with the members of each set kept for listing. */
class DisjointSets {
  private readonly ids = new Map<TerminalId, number>();
  private readonly names: TerminalId[] = [];
  private readonly parents: number[] = [];
  private lists: Map<number, TerminalId[]> | undefined;

  find(name: TerminalId): number {
    return this.root(this.idOf(name));
  }

  join(a: TerminalId, b: TerminalId): void {
    const rootA = this.find(a);
    const rootB = this.find(b);
    if (rootA !== rootB) this.parents[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
    this.lists = undefined;
  }

  members(root: number): readonly TerminalId[] {
    if (!this.lists) {
      this.lists = new Map();
      for (const [id, name] of this.names.entries()) {
        const list = this.lists.get(this.root(id));
        if (list) list.push(name);
        else this.lists.set(this.root(id), [name]);
      }
    }
    return this.lists.get(root) ?? [];
  }

  private idOf(name: TerminalId): number {
    let id = this.ids.get(name);
    if (id === undefined) {
      id = this.names.length;
      this.ids.set(name, id);
      this.names.push(name);
      this.parents.push(id);
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
