import type { Machine } from '../../model/resolve.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Link } from '../../model/wiring.ts';
import { copperResistance, sizeResistance } from '../../motion/wire.ts';
import { terminalId } from '../nets.ts';
import type { CircuitAt } from '../signals.ts';

/** A way for current from one terminal to another that is there whatever anything does: a link, a fuse, a common. */
export interface Conductor {
  /** Places in the list of terminals. */
  readonly a: number;
  readonly b: number;
  /** Undefined while gauge or length are not known: such a wire is taken as ideal. */
  readonly ohms: number | undefined;
  readonly link: Link | undefined;
  /** The fuse or the common that it is, where it is no link. */
  readonly inside: CircuitAt | undefined;
}

export interface Conductors {
  /** `part.terminal`, in the order in which the machine names them. */
  readonly terminals: readonly string[];
  readonly placeOf: ReadonlyMap<string, number>;
  readonly all: readonly Conductor[];
  /** By terminal: places in `all`. */
  readonly at: readonly (readonly number[])[];
}

/** Gathers everything that conducts unconditionally, and all terminals that circuits and links name. */
export function findConductors(machine: Machine): Conductors {
  const terminals: string[] = [];
  const placeOf = new Map<string, number>();
  const at: number[][] = [];
  const all: Conductor[] = [];
  const place = (terminal: string): number => {
    const known = placeOf.get(terminal);
    if (known !== undefined) return known;
    placeOf.set(terminal, terminals.length);
    at.push([]);
    return terminals.push(terminal) - 1;
  };
  const add = (conductor: Conductor) => {
    at[conductor.a]?.push(all.length);
    at[conductor.b]?.push(all.length);
    all.push(conductor);
  };
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      const [first, ...others] = circuit.ends.map((end) => place(terminalId(part.name, end.text)));
      if (first === undefined || (circuit.kind !== 'joined' && circuit.kind !== 'fuse')) continue;
      for (const b of others) add({ a: first, b, ohms: 0, link: undefined, inside: { part, circuit } });
    }
  }
  for (const link of machine.links) {
    const [a, b] = [link.from, link.to].map((end) => place(terminalId(end.part, end.terminal)));
    if (a !== undefined && b !== undefined) add({ a, b, ohms: linkOhms(link), link, inside: undefined });
  }
  return { terminals, placeOf, all, at };
}

/**
 * The resistance of a link at 20 C: by the gauge's formula for AWG (solid wire), by IEC 60228 class 5 for mm2.
 * @returns ohm; undefined unless gauge and length are both written down
 */
export function linkOhms({ wire }: Link): number | undefined {
  const gauge = (wire.own?.wire('wire') ?? wire.shared?.wire('wire'))?.value;
  const length = (wire.own?.quantity('length') ?? wire.shared?.quantity('length'))?.value.value;
  if (!gauge || length === undefined || !(length > 0)) return undefined;
  const perLength = /awg/i.test(gauge.gauge) ? copperResistance(gauge.area) : sizeResistance(gauge.area);
  const ohms = perLength * length;
  return Number.isFinite(ohms) && ohms > 0 ? ohms : undefined;
}
