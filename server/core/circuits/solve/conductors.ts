import { lengthOf, wireOf } from '../../model/link-wire.ts';
import type { Link } from '../../model/wiring.ts';
import { copperResistance, sizeResistance } from '../../motion/wire.ts';
import { isSameList } from '../../same-list.ts';
import type { CircuitAt } from '../signals.ts';
import { type Frame, frameOf } from './frame.ts';
import type { Wired } from './wired.ts';

/** A way for current from one terminal to another: a link, a fuse, a common; or a contact, which conducts in one of its states. */
export interface Conductor {
  /** The same object in all versions of a machine in which this conductor is electrically the same. */
  readonly id: object;
  /** The same object in all versions in which it joins these terminals at its place in the text, whatever its figures are. */
  readonly slot: Slot;
  /** Places in the list of terminals. */
  readonly a: number;
  readonly b: number;
  /** Undefined while gauge or length are not known: such a wire is taken as ideal. */
  readonly ohms: number | undefined;
  readonly link: Link | undefined;
  /** The fuse, the common or the contact that it is, where it is no link. */
  readonly inside: CircuitAt | undefined;
}

/** What is found by its slot may change in all but that. */
export interface Slot {
  readonly isLink: boolean;
}

export interface Conductors {
  readonly frame: Frame;
  /** `part.terminal`, those of the parts in the order of the machine, then others in the order in which links name them. */
  readonly terminals: readonly string[];
  readonly placeOf: Pick<ReadonlyMap<string, number>, 'get'>;
  /** The places of those that no part has. */
  readonly others: ReadonlyMap<string, number>;
  /** Those inside parts, then the links in their order. */
  readonly all: readonly Conductor[];
  /** By terminal: places in `all`. The same object as before where every conductor still joins what it joined. */
  readonly at: readonly (readonly number[])[];
}

/**
 * Gathers everything that conducts unconditionally, and all terminals that circuits and links name.
 * @param before those of an earlier version, of which everything that is still the same is taken over
 */
export function findConductors(machine: Wired, before?: Conductors): Conductors {
  const frame = frameOf(machine, before?.frame);
  const terminals = frame.terminals.slice();
  const others = new Map<string, number>();
  const placeOf = joinPlaces(frame.placeOf, others);
  const place = ({ id }: Link['from']): number => {
    const known = placeOf.get(id);
    if (known !== undefined) return known;
    others.set(id, terminals.length);
    return terminals.push(id) - 1;
  };
  const earlier = before?.frame.shape === frame.shape ? earlierLinks(machine.links, before) : [];
  const all = frame.inside.slice();
  // What a link names is where it was, unless no part has it or a part has come to be called so.
  const isOfParts = ({ a, b }: Conductor) =>
    before?.frame === frame && Math.max(a, b) < frame.terminals.length;
  for (const [index, link] of machine.links.entries()) {
    const known = earlier[index];
    if (known && isOfParts(known)) all.push(known);
    else
      all.push(
        takeOver(link, place(link.from), place(link.to), known ?? inPlaceOf(machine.links, index, before)),
      );
  }
  const isSameLayout = before?.frame === frame && isSameEnds(all, before.all, terminals, before.terminals);
  const at = isSameLayout
    ? before.at
    : (before && relist(terminals.length, all, before)) || listAt(terminals.length, all);
  return { frame, terminals, placeOf, others, all, at };
}

/**
 * The places of terminals, of parts and others. It is made by itself since it outlives its version: a function that is made
 * beside others keeps in memory whatever these refer to, an earlier version among it.
 */
function joinPlaces(
  ofParts: Conductors['placeOf'],
  others: ReadonlyMap<string, number>,
): Conductors['placeOf'] {
  return { get: (terminal) => ofParts.get(terminal) ?? others.get(terminal) };
}

/** What stood in the place of a link, where there are as many links as there were. */
function inPlaceOf(
  links: readonly Link[],
  index: number,
  before: Conductors | undefined,
): Conductor | undefined {
  const first = before?.frame.inside.length ?? 0;
  return before?.all.length === first + links.length ? before.all[first + index] : undefined;
}

/**
 * The conductor of a link: the earlier one of it, as long as the terminals that no part has stand at the same places.
 * @param earlier that of the link, or of another that stood in its place
 */
function takeOver(link: Link, a: number, b: number, earlier: Conductor | undefined): Conductor {
  const slot = earlier?.a === a && earlier.b === b ? earlier.slot : undefined;
  if (slot && earlier?.link === link) return earlier;
  return { id: {}, slot: slot ?? { isLink: true }, a, b, ohms: linkOhms(link), link, inside: undefined };
}

/**
 * By present link: the conductor that it was. Links before and after what was typed are the same; those between are new,
 * whatever they say.
 */
function earlierLinks(links: readonly Link[], before: Conductors): (Conductor | undefined)[] {
  const first = before.frame.inside.length;
  const count = before.all.length - first;
  const earlier = new Array<Conductor | undefined>(links.length);
  const isSame = (present: number, past: number): boolean =>
    links[present] === before.all[first + past]?.link;
  let start = 0;
  for (; start < links.length && start < count && isSame(start, start); start++)
    earlier[start] = before.all[first + start];
  const shift = count - links.length;
  for (let end = links.length - 1; end >= start && end + shift >= start && isSame(end, end + shift); end--)
    earlier[end] = before.all[first + end + shift];
  return earlier;
}

function isSameEnds(
  all: readonly Conductor[],
  past: readonly Conductor[],
  terminals: readonly string[],
  pastTerminals: readonly string[],
): boolean {
  return (
    all.length === past.length &&
    // A link may have come to name another terminal at the same place: one of the mains, or of a part that is not there.
    isSameList(terminals, pastTerminals) &&
    all.every(({ a, b }, place) => a === past[place]?.a && b === past[place]?.b)
  );
}

/** The lists of before with those of a few terminals made anew; undefined where places in the list of conductors moved. */
function relist(
  terminals: number,
  all: readonly Conductor[],
  past: Conductors,
): (readonly number[])[] | undefined {
  if (all.length !== past.all.length) return undefined;
  const others = all.flatMap(({ a, b }, place) => {
    const was = past.all[place];
    return was && (was.a !== a || was.b !== b) ? [{ place, was: [was.a, was.b], is: [a, b] }] : [];
  });
  const at = Array.from({ length: terminals }, (_, terminal) => past.at[terminal] ?? []);
  for (const { place, was } of others)
    for (const end of was) if (end < terminals) at[end] = (at[end] ?? []).filter((each) => each !== place);
  for (const { place, is } of others)
    for (const end of is) if (end < terminals) at[end] = [...(at[end] ?? []), place].sort((a, b) => a - b);
  return at;
}

function listAt(terminals: number, all: readonly Conductor[]): number[][] {
  const at: number[][] = [];
  for (let terminal = 0; terminal < terminals; terminal++) at.push([]);
  for (let place = 0; place < all.length; place++) {
    const conductor = all[place];
    if (!conductor) continue;
    at[conductor.a]?.push(place);
    at[conductor.b]?.push(place);
  }
  return at;
}

/**
 * The resistance of a link at 20 C: by the gauge's formula for AWG (solid wire), by IEC 60228 class 5 for mm2.
 * @returns ohm; undefined unless gauge and length are both written down
 */
export function linkOhms(link: Link): number | undefined {
  const gauge = wireOf(link)?.value;
  const length = lengthOf(link)?.value.value;
  if (!gauge || length === undefined || !(length > 0)) return undefined;
  const perLength = /awg/i.test(gauge.gauge) ? copperResistance(gauge.area) : sizeResistance(gauge.area);
  const ohms = perLength * length;
  return Number.isFinite(ohms) && ohms > 0 ? ohms : undefined;
}
