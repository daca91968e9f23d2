import type { Part } from '../../model/machine.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Circuit, Sheet } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { pick } from '../../pick.ts';
import { PiecedMap } from '../../reuse/pieced-map.ts';
import type { Conductor } from './conductors.ts';
import type { Wired } from './wired.ts';

/** Where the terminals of a part have their places, by its sheet, and what it brings. */
interface Seat extends Brought {
  readonly name: string;
  readonly sheet: Sheet;
  /** The part has lost its sheet. Whoever types the name of one soon has one again, and nothing else moves meanwhile. */
  readonly isFree: boolean;
  /** The place of its first terminal. */
  readonly first: number;
  /** The terminals on which each circuit ends, as places; none at a free seat. */
  readonly ends: ReadonlyMap<Circuit, readonly number[]>;
}

/** What parts bring by themselves, before anything is wired. */
interface Brought {
  /** `part.terminal` for the terminals that circuits name; empty at the places of a free seat. */
  readonly terminals: readonly string[];
  readonly placeOf: ReadonlyMap<string, number>;
  /** Commons and fuses. */
  readonly inside: readonly Conductor[];
  /** What conducts in one of its states, between the first end of its circuit and each of the others. */
  readonly contacts: readonly Conductor[];
}

/**
 * What the parts of a machine bring by themselves. It stays the same object while the parts and their sheets do, and with
 * it the places of their terminals.
 */
export interface Frame extends Brought {
  /**
   * The same object in all versions whose parts have the same sheets in the same order, whatever they are called, or have
   * lost them: every terminal, circuit and conductor of theirs has the same place in all of them.
   */
  readonly shape: object;
  /** The parts that have places, in the order of the machine; a seat is the same object while its part is called as it was. */
  readonly seats: readonly Seat[];
  /** The terminals on which each circuit ends, as places, by the name of the part. */
  readonly endsIn: ReadonlyMap<string, Seat['ends']>;
}

/** In which of these lists a circuit is, by its kind. */
const LISTS: Readonly<Record<string, 'inside' | 'contacts'>> = {
  joined: 'inside',
  fuse: 'inside',
  contact: 'contacts',
  changeover: 'contacts',
};

/**
 * The frame of a machine.
 * @param before that of an earlier version, which is kept if it still holds, or what its parts bring where these do
 */
export function frameOf(machine: Wired, before?: Frame): Frame {
  if (before && isSame(machine, before)) return before;
  const kept = before && keepSeats(machine, before.seats);
  return kept ? joinSeats(kept, before.shape, before.placeOf) : joinSeats(takeSeats(machine), {});
}

function joinSeats(seats: readonly Seat[], shape: object, before?: Frame['placeOf']): Frame {
  return {
    shape,
    seats,
    terminals: seats.flatMap(({ terminals }) => terminals),
    placeOf: PiecedMap.over(seats, placesIn, before),
    endsIn: new Map(seats.flatMap(({ name, isFree, ends }) => (isFree ? [] : [[name, ends]]))),
    inside: seats.flatMap(({ inside }) => inside),
    contacts: seats.flatMap(({ contacts }) => contacts),
  };
}

const placesIn = ({ placeOf }: Seat): Seat['placeOf'] => placeOf;

function takeSeats(machine: Wired): Seat[] {
  let first = 0;
  return partsWithSheets(machine).map(({ part, sheet }) => {
    const seat = laySeat({ name: part.name, sheet, isFree: false, first }, part);
    first += seat.terminals.length;
    return seat;
  });
}

/** The seats of before, where every part still has its own; undefined where one came or went, or has another sheet. */
function keepSeats(machine: Wired, seats: readonly Seat[]): Seat[] | undefined {
  const kept: Seat[] = [];
  for (const part of machine.parts.values()) {
    const { name, sheet } = part;
    const seat = seats[kept.length];
    if (!sheet) {
      if (seat?.name === name) kept.push(seat.isFree ? seat : laySeat({ ...seat, isFree: true }, part));
    } else if (seat?.sheet !== sheet) return undefined;
    else if (seat.name === name && !seat.isFree) kept.push(seat);
    else kept.push(laySeat({ name, sheet, isFree: false, first: seat.first }, part));
  }
  return kept.length === seats.length ? kept : undefined;
}

function laySeat(
  { name, sheet, isFree, first }: Pick<Seat, 'name' | 'sheet' | 'isFree' | 'first'>,
  part: Part,
): Seat {
  const terminals: string[] = [];
  const own = new Map<string, number>();
  const placeOf = new Map<string, number>();
  const ends = new Map<Circuit, readonly number[]>();
  const conductors = { inside: [] as Conductor[], contacts: [] as Conductor[] };
  const place = (terminal: string): number => {
    const known = own.get(terminal);
    if (known !== undefined) return known;
    const id = isFree ? '' : terminalId(name, terminal);
    const at = first + terminals.push(id) - 1;
    own.set(terminal, at);
    if (!isFree) placeOf.set(id, at);
    return at;
  };
  for (const circuit of sheet.circuits.values()) {
    const places = circuit.ends.map((end) => place(end.text));
    if (isFree) continue;
    ends.set(circuit, places);
    const [a, ...others] = places;
    const which = pick(LISTS, circuit.kind);
    if (a === undefined || !which) continue;
    for (const b of others)
      conductors[which].push({
        id: {},
        slot: { isLink: false },
        a,
        b,
        ohms: 0,
        link: undefined,
        inside: { part, circuit },
      });
  }
  return { name, sheet, isFree, first, terminals, placeOf, ends, ...conductors };
}

function isSame(machine: Wired, { seats }: Frame): boolean {
  const taken = seats.filter(({ isFree }) => !isFree);
  const present = partsWithSheets(machine);
  return (
    present.length === taken.length &&
    present.every(({ part, sheet }, place) => {
      const seat = taken[place];
      return seat?.name === part.name && seat.sheet === sheet;
    })
  );
}
