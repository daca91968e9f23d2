import { later, said, say } from '../language/say.ts';
import { wireColours } from '../model/conventions.ts';
import { wireOf } from '../model/link-wire.ts';
import type { Machine } from '../model/resolve.ts';
import {
  conductorCapacity,
  conductorCountFactor,
  groupingFactor,
  type Laying,
  smallConductorCapacity,
} from '../motion/capacity.ts';
import { factIndex } from '../reuse/fact-index.ts';
import { factOver } from '../reuse/fact-over.ts';
import { keptBy } from '../reuse/kept-by.ts';
import { formatNumber, type Wire } from '../units/index.ts';
import { type Collector, constantInput } from './collect.ts';
import type { Input } from './derived.ts';
import { isEarth, isThreePhase } from './earth-links.ts';
import { type NamedWay, namedWays } from './named-ways.ts';
import { sectionOver } from './piece.ts';

/** Which standard the wires follow, as `conventions` says. */
export function isNfpa(machine: Machine): boolean {
  return wireColours(machine)?.value === 'NFPA';
}

/**
 * What each wire may carry all the time at 40 °C ambient. How it is laid is not written down, so the least favourable
 * of the usual ways is taken: single conductors in a duct (B1), cables in a duct (B2).
 */
export const deriveCapacities = sectionOver(namedWays, deriveCapacity);

function deriveCapacity(machine: Machine, { link, name }: NamedWay, out: Collector): void {
  const wire = wireOf(link);
  if (!wire) return;
  const nfpa = isNfpa(machine);
  const address = `wires.${name}.capacity`;
  const base = baseCapacity(wire.value, link.cable === undefined ? 'B1' : 'B2', nfpa);
  const place = { file: machine.file, at: wire.at };
  const input = constantInput(base.name, base.amps, showAmps, place);
  const factor = link.cable === undefined ? undefined : factorOf(machine, link.cable, nfpa);
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

/** How many conductors of a cable warm one another: those of three phases, and others. */
interface Warming {
  readonly phases: number;
  readonly others: number;
}

const warmingIn = factIndex<Machine, Conductor, string, Warming>(
  'machine',
  (machine) => inCables(conductorsOf(machine)),
  ({ cable }) => [cable],
  (together) => {
    const phases = together.filter(({ isPhase }) => isPhase).length;
    return { phases, others: together.length - phases };
  },
  (a, b) => a.phases === b.phases && a.others === b.others,
);

const inCables = keptBy((all: ReturnType<typeof conductorsOf>): readonly Conductor[] =>
  all.filter((each) => each !== undefined),
);

/** A conductor of a cable that carries a current. */
interface Conductor {
  readonly cable: string;
  readonly isPhase: boolean;
}

const conductorsOf = factOver(
  'machine',
  ({ links }: Machine) => links,
  (machine: Machine, link): Conductor | undefined =>
    link.cable === undefined || isEarth(machine, link)
      ? undefined
      : { cable: link.cable, isPhase: isThreePhase(machine, link) },
);

/** The factor for conductors that warm one another; undefined where only one circuit runs in the cable. */
function factorOf(machine: Machine, cable: string, nfpa: boolean): Input | undefined {
  const { phases, others } = warmingIn.get(machine, cable) ?? { phases: 0, others: 0 };
  const circuits = Math.ceil(others / 2) + Math.ceil(phases / 3);
  if (circuits < 2) return undefined;
  const value = nfpa ? conductorCountFactor(phases + others) : groupingFactor(circuits, 'B2');
  const what = nfpa ? say`${phases + others} conductors` : say`${circuits} circuits together`;
  return constantInput(say`factor for ${what}`, value, showFactor);
}
