import { groupBy } from '../../group.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Circuit, Sheet } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { pick } from '../../pick.ts';
import type { Conductor } from './conductors.ts';
import type { Wired } from './wired.ts';

/** Where the terminals of a part have their places, by its sheet. */
interface Seat {
  readonly name: string;
  readonly sheet: Sheet;
  /** The part has lost its sheet. Whoever types the name of one soon has one again, and nothing else moves meanwhile. */
  readonly isFree: boolean;
}

/**
 * What the parts of a machine bring by themselves, before anything is wired: their terminals, and what is joined inside
 * them. It stays the same object while the parts and their sheets do, and with it the places of their terminals.
 */
export interface Frame {
  /**
   * The same object in all versions whose parts have the same sheets in the same order, whatever they are called, or have
   * lost them: every terminal, circuit and conductor of theirs has the same place in all of them.
   */
  readonly shape: object;
  /** The parts that have places, in the order of the machine. */
  readonly seats: readonly Seat[];
  /** `part.terminal` for the terminals that circuits name; empty at the places of a free seat. */
  readonly terminals: readonly string[];
  readonly placeOf: ReadonlyMap<string, number>;
  /** The terminals on which each circuit ends, as places, by the name of the part. */
  readonly endsIn: ReadonlyMap<string, ReadonlyMap<Circuit, readonly number[]>>;
  /** Commons and fuses. */
  readonly inside: readonly Conductor[];
  /** What conducts in one of its states, between the first end of its circuit and each of the others. */
  readonly contacts: readonly Conductor[];
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
 * @param before that of an earlier version, which is kept if it still holds
 */
export function frameOf(machine: Wired, before?: Frame): Frame {
  if (before && isSame(machine, before)) return before;
  const kept = before && keepSeats(machine, before.seats);
  if (!kept) return layFrame(machine, {}, seatsOf(machine));
  const frame = layFrame(machine, before.shape, kept);
  return {
    ...frame,
    inside: keepConductors(frame.inside, before.inside),
    contacts: keepConductors(frame.contacts, before.contacts),
  };
}

function seatsOf(machine: Wired): Seat[] {
  return partsWithSheets(machine).map(({ part, sheet }) => ({ name: part.name, sheet, isFree: false }));
}

/** The seats of before, where every part still has its own; undefined where one came or went, or has another sheet. */
function keepSeats(machine: Wired, seats: readonly Seat[]): Seat[] | undefined {
  const kept: Seat[] = [];
  for (const { name, sheet } of machine.parts.values()) {
    const seat = seats[kept.length];
    if (!sheet) {
      if (seat?.name === name) kept.push({ ...seat, isFree: true });
    } else if (seat?.sheet === sheet) kept.push({ name, sheet, isFree: false });
    else return undefined;
  }
  return kept.length === seats.length ? kept : undefined;
}

function layFrame(machine: Wired, shape: object, seats: readonly Seat[]): Frame {
  const terminals: string[] = [];
  const placeOf = new Map<string, number>();
  const endsIn = new Map<string, Map<Circuit, readonly number[]>>();
  const conductors = { inside: [] as Conductor[], contacts: [] as Conductor[] };
  for (const { name, sheet, isFree } of seats) {
    const part = machine.parts.get(name);
    const own = new Map<string, number>();
    const ownEnds = new Map<Circuit, readonly number[]>();
    if (!isFree) endsIn.set(name, ownEnds);
    const place = (terminal: string): number => {
      const known = own.get(terminal);
      if (known !== undefined) return known;
      const id = isFree ? '' : terminalId(name, terminal);
      if (!isFree) placeOf.set(id, terminals.length);
      own.set(terminal, terminals.length);
      return terminals.push(id) - 1;
    };
    for (const circuit of sheet.circuits.values()) {
      const ends = circuit.ends.map((end) => place(end.text));
      if (isFree || !part) continue;
      ownEnds.set(circuit, ends);
      const [a, ...others] = ends;
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
  }
  return { shape, seats, terminals, placeOf, endsIn, ...conductors };
}

/** What is inside the parts that are called as they were stays the same. */
function keepConductors(present: readonly Conductor[], past: readonly Conductor[]): readonly Conductor[] {
  const known = groupBy(past, placeOfConductor);
  return present.map((conductor) => {
    const was = known.get(placeOfConductor(conductor))?.shift();
    return was?.inside?.part.name === conductor.inside?.part.name ? (was ?? conductor) : conductor;
  });
}

const placeOfConductor = ({ a, b, inside }: Conductor): string => `${a} ${b} ${inside?.circuit.name}`;

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
