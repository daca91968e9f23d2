import type { MachineAnalysis } from '../../analysis.ts';

import { say } from '../../language/say.ts';
import { wireOf } from '../../model/link-wire.ts';
import { describeWire } from '../../model/wire-text.ts';
import type { Link } from '../../model/wiring.ts';
import { fact } from '../../reuse/fact.ts';
import { factIndex } from '../../reuse/fact-index.ts';
import { factOver } from '../../reuse/fact-over.ts';
import type { Given } from '../../shape/fields.ts';
import type { Wire } from '../../units/index.ts';
import type { Derived } from '../../values/derived.ts';
import { namedWays } from '../../values/named-ways.ts';
import { isFaulty, soundValue } from '../common/held-back.ts';

/** A link whose wire is written down, with what was computed of it. */
export interface WireAt {
  readonly link: Link;
  /** By which it is found among the ways of the machine. */
  readonly slot: object;
  /** What a message calls it: `wire W14`, `a core of cable K3`, `the wire from a.b to c.d`. */
  readonly shown: string;
  readonly wire: Given<Wire>;
  /** What was computed of it, by name, without what rests on something that is at fault. */
  readonly values: Readonly<Partial<Record<(typeof VALUES)[number], Derived>>>;
  /** True where it carries more than it may; what else could be said of its size follows from that. */
  readonly isOverloaded: boolean;
}

const VALUES = ['resistance', 'current', 'drop', 'drop-share', 'capacity'] as const;

/** The links whose wire is written down and not at fault, in the order of the text. */
export const wiresOf = fact('analysis', (analysis: MachineAnalysis): readonly WireAt[] =>
  read(analysis).filter((wire) => wire !== undefined),
);

/** By the slot of the way. */
export const wireAt = factIndex<MachineAnalysis, WireAt, object, WireAt | undefined>(
  'analysis',
  wiresOf,
  ({ slot }) => [slot],
  (wires) => wires.at(-1),
  Object.is,
);

const read = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => namedWays(machine),
  (analysis: MachineAnalysis, { link, slot, name }): WireAt | undefined => {
    const wire = wireOf(link);
    if (!wire || isFaulty(analysis, wire.at)) return undefined;
    const values: WireAt['values'] = Object.fromEntries(
      VALUES.flatMap((each) => {
        const value = soundValue(analysis, `wires.${name}.${each}`);
        return value ? [[each, value]] : [];
      }),
    );
    return { link, slot, shown: showLink(link), wire, values, isOverloaded: isOverloaded(values) };
  },
);

/** What a message calls a link. */
export function showLink(link: Link): string {
  if (link.label !== undefined) return say`wire ${link.label}`;
  if (link.cable !== undefined) return say`a core of cable ${link.cable}`;
  return say`the wire from ${link.from.id} to ${link.to.id}`;
}

/** A text with a capital first letter, as at the start of a sentence. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function isOverloaded({ current, capacity }: WireAt['values']): boolean {
  return current !== undefined && capacity !== undefined && current.si > capacity.si * (1 + 1e-9);
}

/** The size of a wire without its colour, for messages. */
export function sizeOf({ wire, link }: WireAt): string {
  return wire.value.gauge || describeWire(link);
}
