import type { Machine } from '../model/resolve.ts';
import { circuitsIn } from '../model/sheet-circuits.ts';
import { type TerminalId, terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import { noteRead } from '../reuse/recording.ts';
import { type Source, WHOLE } from '../reuse/version.ts';
import { isSameList } from '../same-list.ts';

/** What the wiring joins: terminals with one another through links, and through what is common inside a part. */
export interface Nets {
  /** The net that a terminal is on; terminals that nothing reaches are on a net of their own. */
  readonly netOf: (terminal: TerminalId) => number;
  /** True when at least one link ends here. */
  readonly isWired: (terminal: TerminalId) => boolean;
  readonly linksAt: (terminal: TerminalId) => readonly Link[];
  readonly terminalsOn: (net: number) => readonly TerminalId[];
}

/** What is joined to what; the same object from version to version while that is the same. */
interface Joints {
  /** The ends of all links, pair by pair, and then what is common inside parts. */
  readonly pairs: readonly TerminalId[];
  readonly sets: DisjointSets;
  /** The places of the links that end at a terminal. */
  readonly linksAt: ReadonlyMap<TerminalId, readonly number[]>;
  /** The lists of links that were given last, by terminal. */
  readonly lists: Map<TerminalId, readonly Link[]>;
}

const JOINTS: Source = { name: 'joints' };
const NET_OF: Source = { name: 'net of a terminal' };
const WIRED: Source = { name: 'wired terminals' };
const LINKS_AT: Source = { name: 'links at a terminal' };

/** The nets of a machine, once for each version of it. */
export function netsOf(machine: Machine): Nets {
  const known = machine.version.hosts.get('nets');
  if (known) return known as Nets;
  const nets = buildNets(machine);
  machine.version.hosts.set('nets', nets);
  return nets;
}

/** Joins all terminals into nets. Links to parts or terminals that do not exist count too: their ends are joined. */
export function buildNets(machine: Machine): Nets {
  const { version } = machine;
  const pairs = listPairs(machine);
  const before = version.before(JOINTS) as Joints | undefined;
  const joints = version.put(
    JOINTS,
    before && isSameList(before.pairs, pairs) ? before : join(pairs, machine.links.length, before),
    Object.is,
  );
  const { sets } = joints;
  const { links } = machine;
  /** Makes a question about one terminal, of which only that one is noted. */
  const askOf = <T>(source: Source, get: (terminal: TerminalId) => T) => {
    version.put(source, { get }, () => false);
    return (terminal: TerminalId): T => {
      const answer = get(terminal);
      noteRead(version, source, terminal, answer);
      return answer;
    };
  };
  return {
    netOf: askOf(NET_OF, (terminal) => sets.find(terminal)),
    isWired: askOf(WIRED, (terminal) => joints.linksAt.has(terminal)),
    linksAt: askOf(LINKS_AT, (terminal) => listLinks(joints, links, terminal)),
    terminalsOn: (net) => {
      noteRead(version, JOINTS, WHOLE, joints);
      return sets.members(net);
    },
  };
}

function listPairs({ links, parts }: Machine): TerminalId[] {
  const pairs: TerminalId[] = [];
  for (const { from, to } of links) pairs.push(from.id, to.id);
  for (const { name, sheet } of parts.values()) {
    for (const { ends } of sheet ? circuitsIn(sheet, 'joined') : []) {
      const [first, ...others] = ends.map((end) => terminalId(name, end.text));
      for (const other of others) if (first !== undefined) pairs.push(first, other);
    }
  }
  return pairs;
}

/**
 * @param links how many of the pairs are links; the others stand inside parts
 * @param before those of an earlier version
 */
function join(pairs: readonly TerminalId[], links: number, before: Joints | undefined): Joints {
  const sets = new DisjointSets(before?.sets);
  const linksAt = new Map<TerminalId, number[]>();
  for (let place = 0; place + 1 < pairs.length; place += 2) {
    const ends = [pairs[place] ?? '', pairs[place + 1] ?? ''] as const;
    sets.join(...ends);
    if (place >= 2 * links) continue;
    for (const end of ends) {
      const there = linksAt.get(end);
      if (there) there.push(place / 2);
      else linksAt.set(end, [place / 2]);
    }
  }
  const lists = new Map([...(before?.lists ?? [])].filter(([terminal]) => linksAt.has(terminal)));
  return { pairs, sets, linksAt, lists };
}

const NONE: readonly Link[] = [];

/** The links that end at a terminal, as the same list while they are the same. */
function listLinks(
  { linksAt, lists }: Joints,
  links: readonly Link[],
  terminal: TerminalId,
): readonly Link[] {
  const places = linksAt.get(terminal);
  if (!places) return NONE;
  const known = lists.get(terminal);
  const isKnown =
    known?.length === places.length && places.every((place, index) => links[place] === known[index]);
  if (isKnown) return known;
  const list = places.flatMap((place) => links[place] ?? []);
  lists.set(terminal, list);
  return list;
}

/** More names than this are not remembered for later versions. */
const MOST_NAMES = 100_000;

/** Union-find over names, with the members of each set kept for listing. */
class DisjointSets {
  /**
   * The number of each name. Later versions of a machine use the same, so that a set keeps its number whatever else is
   * joined; the numbers of names that are gone stay unused.
   */
  private readonly ids: Map<TerminalId, number>;
  /** The names of this version, in the order in which it names them. */
  private readonly names: TerminalId[] = [];
  /** By number; empty at those of other versions. */
  private readonly parents: number[] = [];
  private lists: Map<number, TerminalId[]> | undefined;

  constructor(before?: DisjointSets) {
    this.ids = before && before.ids.size < MOST_NAMES ? before.ids : new Map();
  }

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
      for (const name of this.names) {
        const root = this.find(name);
        const list = this.lists.get(root);
        if (list) list.push(name);
        else this.lists.set(root, [name]);
      }
    }
    return this.lists.get(root) ?? [];
  }

  private idOf(name: TerminalId): number {
    let id = this.ids.get(name);
    if (id === undefined) {
      id = this.ids.size;
      this.ids.set(name, id);
    }
    if (this.parents[id] === undefined) {
      this.parents[id] = id;
      this.names.push(name);
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
