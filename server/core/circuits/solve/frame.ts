import { partsWithSheets } from '../../model/resolve.ts';
import type { Sheet } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { isSameList } from '../../same-list.ts';
import type { Conductor } from './conductors.ts';
import type { Wired } from './wired.ts';

/**
 * What the parts of a machine bring by themselves, before anything is wired: their terminals, and what is joined inside
 * them. It stays the same object while the parts and their sheets do, and with it the places of their terminals.
 */
export interface Frame {
  /**
   * The same object in all versions whose parts have the same sheets in the same order, whatever they are called: every
   * terminal, circuit and conductor of theirs has the same place in all of them.
   */
  readonly shape: object;
  /** The parts that have sheets, by name, in the order of the machine. */
  readonly sheets: ReadonlyMap<string, Sheet>;
  /** `part.terminal` for the terminals that circuits name. */
  readonly terminals: readonly string[];
  readonly placeOf: ReadonlyMap<string, number>;
  /** The terminals on which each circuit ends, as places; the circuits in the order of the parts and of their sheets. */
  readonly endsOf: readonly (readonly number[])[];
  /** Commons and fuses. */
  readonly inside: readonly Conductor[];
}

/**
 * The frame of a machine.
 * @param before that of an earlier version, which is kept if it still holds
 */
export function frameOf(machine: Wired, before?: Frame): Frame {
  if (before && isSame(machine, before)) return before;
  const sheets = new Map<string, Sheet>();
  const terminals: string[] = [];
  const placeOf = new Map<string, number>();
  const endsOf: (readonly number[])[] = [];
  const inside: Conductor[] = [];
  for (const { part, sheet } of partsWithSheets(machine)) {
    sheets.set(part.name, sheet);
    const place = (terminal: string): number => {
      const id = terminalId(part.name, terminal);
      const known = placeOf.get(id);
      if (known !== undefined) return known;
      placeOf.set(id, terminals.length);
      return terminals.push(id) - 1;
    };
    for (const circuit of sheet.circuits.values()) {
      const ends = circuit.ends.map((end) => place(end.text));
      endsOf.push(ends);
      const [a, ...others] = ends;
      if (a === undefined || (circuit.kind !== 'joined' && circuit.kind !== 'fuse')) continue;
      for (const b of others)
        inside.push({ id: {}, slot: {}, a, b, ohms: 0, link: undefined, inside: { part, circuit } });
    }
  }
  const frame = { shape: {}, sheets, terminals, placeOf, endsOf, inside };
  return before && isSameList([...sheets.values()], [...before.sheets.values()])
    ? keepShape(frame, before)
    : frame;
}

/** A frame in which parts have come to be called otherwise; what is inside the others stays. */
function keepShape(frame: Frame, { shape, endsOf, inside }: Frame): Frame {
  const kept = frame.inside.map((conductor, place) => {
    const past = inside[place];
    return past?.inside?.part.name === conductor.inside?.part.name ? (past ?? conductor) : conductor;
  });
  return { ...frame, shape, endsOf, inside: kept };
}

function isSame(machine: Wired, { sheets }: Frame): boolean {
  const known = sheets.entries();
  for (const { name, sheet } of machine.parts.values()) {
    if (!sheet) continue;
    const { value, done } = known.next();
    if (done || value[0] !== name || value[1] !== sheet) return false;
  }
  return known.next().done === true;
}
