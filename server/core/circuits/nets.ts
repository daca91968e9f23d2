import type { Part } from '../model/machine.ts';
import { type Machine, partsOf } from '../model/resolve.ts';
import { circuitsIn } from '../model/sheet-circuits.ts';
import { type TerminalId, terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import { keptBy } from '../reuse/kept-by.ts';
import { noteRead } from '../reuse/recording.ts';
import type { Source } from '../reuse/version.ts';
import { countSameEnds } from '../same-ends.ts';
import { isSameList } from '../same-list.ts';
import { DisjointSets } from './disjoint-sets.ts';
import { LinksByEnd } from './links-by-end.ts';

/** What the wiring joins: terminals with one another through links, and through what is common inside a part. */
export interface Nets {
  /** The net that a terminal is on; terminals that nothing reaches are on a net of their own. */
  readonly netOf: (terminal: TerminalId) => number;
  /** True when at least one link ends here. */
  readonly isWired: (terminal: TerminalId) => boolean;
  readonly linksAt: (terminal: TerminalId) => readonly Link[];
  /** In the order in which the text names them. */
  readonly terminalsOn: (net: number) => readonly TerminalId[];
}

/** What is joined to what; the same object from version to version while that is the same. */
interface Joints {
  /** The ends of all links, pair by pair. */
  readonly ends: readonly TerminalId[];
  /** What is common inside parts, pair by pair; the same list while the parts are the same. */
  readonly inside: readonly TerminalId[];
  /** The numbers of the ends of links, and then of those inside parts. */
  readonly numbers: Int32Array;
  readonly sets: DisjointSets;
  readonly linksAt: LinksByEnd;
  /** The lists of links that were given last, by terminal, also to earlier versions. */
  readonly lists: Map<TerminalId, readonly Link[]>;
}

const LINKS: Source = { name: 'links of the nets' };
const JOINTS: Source = { name: 'joints' };
const NET_OF: Source = { name: 'net of a terminal' };
const WIRED: Source = { name: 'wired terminals' };
const LINKS_AT: Source = { name: 'links at a terminal' };
const TERMINALS_ON: Source = { name: 'terminals on a net' };

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
  const { version, links } = machine;
  const before = version.before(JOINTS) as Joints | undefined;
  const past = version.before(LINKS) as readonly Link[] | undefined;
  const ends = before && past === links ? before.ends : endsOf(links);
  const inside = insideOf(partsOf(machine));
  const isSame = before && isSameList(before.ends, ends) && isSameList(before.inside, inside);
  const joints = version.put(JOINTS, isSame ? before : join(ends, inside, before), Object.is);
  version.put(LINKS, links, Object.is);
  const changes = before && past && compare({ joints: before, links: past }, { joints, links });
  const { sets, lists } = joints;
  const isWired = (terminal: TerminalId) => joints.linksAt.has(sets.numberOf(terminal));
  for (const terminal of changes?.ends ?? []) if (!isWired(terminal)) lists.delete(terminal);
  /** Each list is held to the links once for a version: whoever asks at every link of a rail asks for the same one. */
  const listed = new Map<TerminalId, readonly Link[]>();
  const linksAt = (terminal: TerminalId): readonly Link[] => {
    const list = listed.get(terminal) ?? listLinks(joints, links, terminal);
    listed.set(terminal, list);
    return list;
  };
  /** Makes a question about one terminal or net, of which only that one is noted. */
  const askOf = <K, T>(source: Source, get: (key: K) => T, changed: ReadonlySet<unknown> | undefined) => {
    version.put(source, { get }, () => false, changed && (() => changed));
    return (key: K): T => {
      const answer = get(key);
      noteRead(version, source, key, answer);
      return answer;
    };
  };
  return {
    netOf: askOf(NET_OF, (terminal: TerminalId) => sets.find(terminal), changes?.joined),
    isWired: askOf(WIRED, isWired, changes?.ends),
    linksAt: askOf(LINKS_AT, linksAt, changes?.ends),
    terminalsOn: askOf(TERMINALS_ON, (net: number) => sets.members(net), changes?.nets),
  };
}

interface Wiring {
  readonly joints: Joints;
  readonly links: readonly Link[];
}

/** What is different from the version before. */
interface Changes {
  /** Terminals at which other links end. */
  readonly ends: ReadonlySet<TerminalId>;
  /** The numbers of the nets that other terminals are on, or that were on them; undefined where that is not known. */
  readonly nets: ReadonlySet<number> | undefined;
  /** The terminals of these nets. */
  readonly joined: ReadonlySet<TerminalId> | undefined;
}

const NONE: ReadonlySet<never> = new Set();

/** Compares two versions by the links that differ, which what was typed left between others that do not. */
function compare(before: Wiring, now: Wiring): Changes {
  const ends = new Set<TerminalId>();
  const [start, end] = countSameEnds(before.links, now.links);
  for (const { links } of [before, now])
    for (const { from, to } of links.slice(start, links.length - end)) ends.add(from.id).add(to.id);
  if (before.joints === now.joints) return { ends, nets: NONE, joined: NONE };
  if (!hasSameInside(before, now) || !now.joints.sets.countsLike(before.joints.sets))
    return { ends, nets: undefined, joined: undefined };
  const nets = new Set<number>();
  const joined = new Set<TerminalId>();
  for (const { sets } of [before.joints, now.joints]) {
    for (const terminal of ends) {
      const net = sets.find(terminal);
      nets.add(net);
      for (const other of sets.members(net)) joined.add(other);
    }
  }
  return { ends, nets, joined };
}

/** Whether the same terminals are joined inside parts. */
function hasSameInside(before: Wiring, now: Wiring): boolean {
  return isSameList(before.joints.inside, now.joints.inside);
}

function endsOf(links: readonly Link[]): readonly TerminalId[] {
  const ends: TerminalId[] = [];
  for (const { from, to } of links) ends.push(from.id, to.id);
  return ends;
}

const insideOf = keptBy((parts: readonly Part[]): readonly TerminalId[] => parts.flatMap(pairsInside));

/** What is common inside a part, pair by pair. */
const pairsInside = keptBy(({ name, sheet }: Part): readonly TerminalId[] => {
  const pairs: TerminalId[] = [];
  for (const { ends } of sheet ? circuitsIn(sheet, 'joined') : []) {
    const [first, ...others] = ends.map((end) => terminalId(name, end.text));
    for (const other of others) if (first !== undefined) pairs.push(first, other);
  }
  return pairs;
});

/** @param before what was joined in an earlier version */
function join(
  ends: readonly TerminalId[],
  inside: readonly TerminalId[],
  before: Joints | undefined,
): Joints {
  const sets = new DisjointSets(before?.sets);
  const numbers = numbersOf(ends.concat(inside), sets, before);
  for (let place = 0; place + 1 < numbers.length; place += 2)
    sets.join(numbers[place] ?? 0, numbers[place + 1] ?? 0);
  return {
    ends,
    inside,
    numbers,
    sets,
    linksAt: new LinksByEnd(numbers.subarray(0, ends.length)),
    lists: before?.lists ?? new Map(),
  };
}

/** The numbers of names; those that stand as in an earlier version have the numbers that they had. */
function numbersOf(names: readonly TerminalId[], sets: DisjointSets, before: Joints | undefined): Int32Array {
  const numbers = new Int32Array(names.length);
  const past = before && sets.countsLike(before.sets) ? before : undefined;
  const [start, end] = past ? countSameEnds(past.ends.concat(past.inside), names) : [0, 0];
  const shift = (past?.numbers.length ?? 0) - names.length;
  for (let place = 0; place < names.length; place++) {
    const isKnown = past && (place < start || place >= names.length - end);
    const known = isKnown ? past.numbers[place < start ? place : place + shift] : undefined;
    numbers[place] = known === undefined ? sets.numberOf(names[place] ?? '') : sets.enter(known);
  }
  return numbers;
}

const NO_LINKS: readonly Link[] = [];

/** The links that end at a terminal, as the same list while they are the same. */
function listLinks(
  { sets, linksAt, lists }: Joints,
  links: readonly Link[],
  terminal: TerminalId,
): readonly Link[] {
  const places = linksAt.placesOf(sets.numberOf(terminal));
  if (places.length === 0) return NO_LINKS;
  const known = lists.get(terminal);
  const isKnown =
    known?.length === places.length && places.every((place, index) => links[place] === known[index]);
  if (isKnown) return known;
  const list = places.flatMap((place) => links[place] ?? []);
  lists.set(terminal, list);
  return list;
}
