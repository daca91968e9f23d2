import { terminalId } from '../circuits/nets.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import { later, said, say } from '../language/say.ts';
import { wireColours } from '../model/conventions.ts';
import { wireOf } from '../model/link-wire.ts';
import { MAINS, type Machine, partsWithSheets } from '../model/resolve.ts';
import { colourOf } from '../model/wire-text.ts';
import type { Link } from '../model/wiring.ts';
import {
  conductorCapacity,
  conductorCountFactor,
  groupingFactor,
  type Laying,
  smallConductorCapacity,
} from '../motion/capacity.ts';
import { formatNumber, type Wire } from '../units/index.ts';
import { type Collector, constantInput } from './collect.ts';
import type { Input } from './derived.ts';
import { type Kept, keepUnder } from './keep.ts';

/** Which standard the wires follow, as `conventions` says. */
export function isNfpa(machine: Machine): boolean {
  return wireColours(machine)?.value === 'NFPA';
}

/**
 * What each wire may carry all the time at 40 °C ambient. How it is laid is not written down, so the least favourable
 * of the usual ways is taken: single conductors in a duct (B1), cables in a duct (B2).
 */
export function deriveCapacities(machine: Machine, names: ReadonlyMap<Link, string>, out: Collector): void {
  const ends = endsByKind(machine);
  const inCable = new Map<string, Link[]>();
  for (const link of machine.links) {
    if (link.cable === undefined || isEarth(link, ends)) continue;
    const there = inCable.get(link.cable);
    if (there) there.push(link);
    else inCable.set(link.cable, [link]);
  }
  const nfpa = isNfpa(machine);
  const factors = new Map([...inCable].map(([cable, links]) => [cable, factorOf(links, ends, nfpa)]));
  for (const [link, name] of names) {
    const factor = link.cable === undefined ? undefined : factors.get(link.cable);
    keepUnder(kept, link, [name, factor?.name, factor?.value, nfpa], out, () =>
      deriveCapacity(machine, link, name, factor, nfpa, out),
    );
  }
}

/** By link, which stays the same object while its text does. */
const kept = new WeakMap<Link, Kept>();

function deriveCapacity(
  machine: Machine,
  link: Link,
  name: string,
  factor: Input | undefined,
  nfpa: boolean,
  out: Collector,
): void {
  const wire = wireOf(link);
  if (!wire) return;
  const address = `wires.${name}.capacity`;
  const base = baseCapacity(wire.value, link.cable === undefined ? 'B1' : 'B2', nfpa);
  const place = { file: machine.file, at: wire.at };
  const input = constantInput(base.name, base.amps, showAmps, place);
  if (!Number.isFinite(base.amps))
    out.lack(address, say`a size that the table has: ${wire.value.gauge} is too thin`);
  else if (factor && !Number.isFinite(factor.value))
    out.lack(address, say`a cable of no more than nine circuits`);
  else
    out.add({
      address,
      unit: 'A',
      formula: factor ? `{${input.name}} × {${factor.name}}` : `{${input.name}}`,
      inputs: factor ? [input, factor] : [input],
      si: base.amps * (factor?.value ?? 1),
      source: base.source,
    });
}

const showAmps = (amps: number): string => `${formatNumber(amps)} A`;
const showFactor = (factor: number): string => formatNumber(factor);

const PVC = later`PVC-insulated copper at 40 °C ambient and 70 °C conductor; check the standard before relying on it`;

function baseCapacity(
  { area, gauge }: Wire,
  laying: Laying,
  nfpa: boolean,
): { readonly name: string; readonly amps: number; readonly source: string } {
  const number = /^(\d+) AWG$/.exec(gauge)?.[1];
  const small = number === undefined ? Number.NaN : smallConductorCapacity(Number(number));
  const byArea = conductorCapacity(area, laying);
  // The table of EN 60204-1 begins at 0.2 mm2; thinner gauges are in that of NFPA 79 alone.
  if (Number.isFinite(small) && (nfpa || !Number.isFinite(byArea)))
    return {
      name: say`capacity of ${gauge}`,
      amps: small,
      source: say`NFPA 79 Table 12.5.1, copper, 75 °C column (from memory; check the standard before relying on it)`,
    };
  const how = laying === 'B1' ? later`single conductor in a duct (B1)` : later`cable in a duct (B2)`;
  return {
    name: say`capacity of ${gauge}`,
    amps: byArea,
    source: say`EN 60204-1 Table 6, ${said(how)}; ${said(PVC)}`,
  };
}

/** The factor for conductors that warm one another; undefined where only one circuit runs in the cable. */
function factorOf(together: readonly Link[], { three }: Ends, nfpa: boolean): Input | undefined {
  const phases = together.filter((link) => endsOf(link).some((end) => three.has(end))).length;
  const circuits = Math.ceil((together.length - phases) / 2) + Math.ceil(phases / 3);
  if (circuits < 2) return undefined;
  const value = nfpa ? conductorCountFactor(together.length) : groupingFactor(circuits, 'B2');
  const what = nfpa ? say`${together.length} conductors` : say`${circuits} circuits together`;
  return constantInput(say`factor for ${what}`, value, showFactor);
}

interface Ends {
  readonly earth: ReadonlySet<string>;
  readonly three: ReadonlySet<string>;
  /** What was found of the links that were asked for. */
  readonly isEarth: WeakMap<Link, boolean>;
}

/** By the frame of the machine, which stays the same while its parts and sheets do. */
const keptEnds = new WeakMap<object, Ends>();

function endsByKind(machine: Machine): Ends {
  const { frame } = circuitsOf(machine).solved.board.conductors;
  const ends = keptEnds.get(frame) ?? findEnds(machine);
  keptEnds.set(frame, ends);
  return ends;
}

function findEnds(machine: Machine): Ends {
  const earth = new Set([terminalId(MAINS, 'PE')]);
  const three = new Set<string>();
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      const kept =
        circuit.kind === 'earth' ? earth : circuit.kind.startsWith('three-phase') ? three : undefined;
      for (const end of circuit.ends) kept?.add(terminalId(part.name, end.text));
    }
  }
  return { earth, three, isEarth: new WeakMap() };
}

/** The protective conductors of a machine, by their colour or by where they end. */
export function earthLinks(machine: Machine): ReadonlySet<Link> {
  const ends = endsByKind(machine);
  return new Set(machine.links.filter((link) => isEarth(link, ends)));
}

/** Protective conductors carry nothing and warm nothing. */
function isEarth(link: Link, ends: Ends): boolean {
  const known = ends.isEarth.get(link);
  if (known !== undefined) return known;
  const is = colourOf(link) === 'GNYE' || endsOf(link).some((end) => ends.earth.has(end));
  ends.isEarth.set(link, is);
  return is;
}

function endsOf({ from, to }: Link): readonly string[] {
  return [terminalId(from.part, from.terminal), terminalId(to.part, to.terminal)];
}
