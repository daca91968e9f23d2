import type { Circuit } from '../../model/sheet.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import type { Frame } from '../solve/frame.ts';
import { type LegShape, legsOf } from './legs.ts';

/** A circuit that current can flow through, where a part of the machine has it. */
interface Site {
  /** Of the part, in the frame. */
  readonly seat: number;
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
  /** By terminal: the places of the sites that have it as an end, each as often as it has. */
  readonly at: readonly (readonly number[])[];
  /** By seat of the frame: where its own sites begin. */
  readonly starts: readonly number[];
}

/** The sites of the parts that have places in a frame. */
export const sitesOf = keptBy(({ terminals, seats, endsIn }: Frame): Sites => {
  const all: Site[] = [];
  const at: number[][] = terminals.map(() => []);
  const starts: number[] = [];
  for (const [seat, { name, sheet }] of seats.entries()) {
    starts.push(all.length);
    // The circuits of a part that has lost its sheet keep their places free.
    const ownEnds = endsIn.get(name);
    for (const circuit of sheet.circuits.values()) {
      const legs = legsOf(circuit);
      if (legs.length === 0) continue;
      const ends = ownEnds?.get(circuit) ?? [];
      const shapes = legs.filter(
        ({ from, to }) => ends[from] !== undefined && (to > 2 || ends[to] !== undefined),
      );
      if (shapes.length > 0) for (const end of ends) at[end]?.push(all.length);
      all.push({ seat, partClass: sheet.partClass, circuit, ends, shapes });
    }
  }
  return { all, at, starts };
});
