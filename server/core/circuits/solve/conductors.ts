import { lengthOf, wireOf } from '../../model/link-wire.ts';
import type { Link } from '../../model/wiring.ts';
import { copperResistance, sizeResistance } from '../../motion/wire.ts';
import { countSameEnds } from '../../same-ends.ts';
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
  /** Those of the machine, whose conductors stand behind the ones inside parts. */
  readonly links: readonly Link[];
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
  const { links } = machine;
  const earlier = earlierLinks(links, before?.frame.shape === frame.shape ? before : undefined);
  const all = frame.inside.slice();
  // What a link names is where it was, unless no part has it or a part has come to be called so.
  const isOfParts = ({ a, b }: Conductor) =>
    before?.frame === frame && Math.max(a, b) < frame.terminals.length;
  for (let index = 0; index < links.length; index++) {
    const link = links[index];
    if (!link) continue;
    const known = earlier(index);
    if (known && isOfParts(known)) all.push(known);
    else all.push(takeOver(link, place(link.from), place(link.to), known ?? inPlaceOf(links, index, before)));
  }
  const at = before
    ? listAgain(terminals, all, before, before.frame === frame)
    : listAt(terminals.length, all);
  return { frame, links, terminals, placeOf, others, all, at };
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
 * Tells of a present link, by its place, the conductor that it was. Links before and after what was typed are the same;
 * those between are new, whatever they say.
 */
function earlierLinks(
  links: readonly Link[],
  before: Conductors | undefined,
): (index: number) => Conductor | undefined {
  if (!before) return () => undefined;
  const first = before.frame.inside.length;
  const [start, end] = countSameEnds(before.links, links);
  const shift = before.links.length - links.length;
  return (index) => {
    if (index < start) return before.all[first + index];
    return index >= links.length - end ? before.all[first + index + shift] : undefined;
  };
}

/**
 * By terminal, the places of conductors: the lists of before with those of a few terminals made anew, where no place has
 * moved. The whole is the same object while every conductor joins what it joined.
 */
function listAgain(
  terminals: readonly string[],
  all: readonly Conductor[],
  past: Conductors,
  hasSameFrame: boolean,
): Conductors['at'] {
  if (all.length !== past.all.length) return listAt(terminals.length, all);
  const moved: number[] = [];
  for (let place = 0; place < all.length; place++) {
    const is = all[place];
    const was = past.all[place];
    if (is !== was && (is?.a !== was?.a || is?.b !== was?.b)) moved.push(place);
  }
  // A link may have come to name another terminal at the same place: one of the mains, or of a part that is not there.
  if (hasSameFrame && moved.length === 0 && isSameList(terminals, past.terminals)) return past.at;
  const at = past.at.slice(0, terminals.length);
  while (at.length < terminals.length) at.push([]);
  const change = (end: number | undefined, to: (places: readonly number[]) => readonly number[]) => {
    if (end !== undefined && end < terminals.length) at[end] = to(at[end] ?? []);
  };
  for (const place of moved)
    for (const end of [past.all[place]?.a, past.all[place]?.b])
      change(end, (places) => places.filter((each) => each !== place));
  for (const place of moved)
    for (const end of [all[place]?.a, all[place]?.b])
      change(end, (places) => [...places, place].sort((a, b) => a - b));
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
