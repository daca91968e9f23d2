import type { Circuit } from '../../model/sheet.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import type { Frame } from '../solve/frame.ts';
import { type LegShape, legsOf } from './legs.ts';

/** A circuit that current can flow through, where a part of the machine has it. */
interface Site {
  readonly partClass: string;
  readonly circuit: Circuit;
  /** The terminals on which it ends, as places; none while the part has lost its sheet. */
  readonly ends: readonly number[];
  /** Its legs, as far as their ends are written down. */
  readonly shapes: readonly LegShape[];
}

/** All sites of a machine. */
export interface Sites {
  /** In the order of the machine; at the same places in all frames of one shape. */
  readonly all: readonly Site[];
  /** By seat of the frame: where its own sites begin; and behind the last one how many there are. */
  readonly starts: readonly number[];
  /** By site: its seat. */
  readonly seatOf: readonly number[];
  /** The places of the sites that have a terminal as an end, each as often as it has. */
  readonly at: (terminal: number) => readonly number[];
}

type Seat = Frame['seats'][number];

/** The sites of the parts that have places in a frame. */
export const sitesOf = keptBy(({ seats }: Frame): Sites => {
  const starts = [0];
  const seatOf: number[] = [];
  const own = seats.map(sitesIn);
  for (const [seat, { sites }] of own.entries()) {
    for (const _ of sites) seatOf.push(seat);
    starts.push(seatOf.length);
  }
  return {
    all: own.flatMap(({ sites }) => sites),
    starts,
    seatOf,
    at: (terminal) => {
      const seat = seatAt(seats, terminal);
      const first = seats[seat]?.first ?? 0;
      return (own[seat]?.at[terminal - first] ?? []).map((site) => (starts[seat] ?? 0) + site);
    },
  };
});

/** The seat that a terminal belongs to, by bisection; the last one for a terminal that no part has. */
function seatAt(seats: readonly Seat[], terminal: number): number {
  let low = 0;
  let high = seats.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((seats[middle]?.first ?? 0) <= terminal) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The sites of one part, and by terminal which of them end there, both from 0. */
interface SeatSites {
  readonly sites: readonly Site[];
  readonly at: readonly (readonly number[])[];
}

const sitesIn = keptBy(({ first, terminals, sheet, ends: endsIn }: Seat): SeatSites => {
  const sites: Site[] = [];
  const at: number[][] = terminals.map(() => []);
  // The circuits of a part that has lost its sheet keep their places free.
  for (const circuit of sheet.circuits.values()) {
    const legs = legsOf(circuit);
    if (legs.length === 0) continue;
    const ends = endsIn.get(circuit) ?? [];
    const shapes = legs.filter(
      ({ from, to }) => ends[from] !== undefined && (to > 2 || ends[to] !== undefined),
    );
    if (shapes.length > 0) for (const end of ends) at[end - first]?.push(sites.length);
    sites.push({ partClass: sheet.partClass, circuit, ends, shapes });
  }
  return { sites, at };
});
