import { later, say } from '../language/say.ts';
import { lengthOf, wireOf } from '../model/link-wire.ts';
import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';
import { copperResistance, sizeResistance } from '../motion/wire.ts';
import { formatNumber } from '../units/index.ts';
import { type Collector, constantInput, inputOf } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { isEarth } from './earth-links.ts';
import { inputFrom } from './input.ts';
import { type NamedWay, namedWays } from './named-ways.ts';
import { sectionOver } from './piece.ts';
import { flowThrough } from './wire-currents.ts';

/**
 * Resistance, current and loss of every link whose wire is written down. Links without a wire are taken for ideal, and
 * nothing is said of them; protective conductors carry nothing unless something fails.
 */
export const deriveWires = sectionOver(namedWays, deriveWire);

function deriveWire(machine: Machine, { link, slot, name }: NamedWay, out: Collector): void {
  if (!wireOf(link)) return;
  const base = `wires.${name}`;
  const resistance = deriveResistance(machine, link, base, out);
  if (isEarth(machine, link)) return;
  const flow = flowThrough(machine, slot);
  const current = flow && out.add({ address: `${base}.current`, unit: 'A', ...flow });
  if (!current) out.pass(`${base}.current`, say`something that draws a known current through it`);
  if (!resistance || !current) return;
  out.add({
    address: `${base}.drop`,
    unit: 'V',
    formula: '{resistance} × {current}',
    inputs: [inputFrom(resistance, later`resistance`), inputFrom(current, later`current`)],
    si: resistance.si * current.si,
    source: say`Ohm's law; this conductor alone, not the one that leads back`,
  });
}

function deriveResistance(machine: Machine, link: Link, base: string, out: Collector): Derived | undefined {
  const wire = wireOf(link);
  const length = lengthOf(link);
  if (!wire || !length) {
    out.lack(`${base}.resistance`, say`the length of the wire`);
    return undefined;
  }
  const { area, gauge } = wire.value;
  const isGauge = /awg/i.test(gauge);
  const perLength = isGauge ? copperResistance(area) : sizeResistance(area);
  const size: Input = constantInput(say`resistance of ${gauge}`, perLength, showPerLength, {
    file: machine.file,
    at: wire.at,
  });
  return out.add({
    address: `${base}.resistance`,
    unit: 'ohm',
    formula: `{length} × {${size.name}}`,
    inputs: [inputOf(later`length`, length, machine.file), size],
    si: perLength * length.value.value,
    source: isGauge
      ? say`resistivity of copper (IEC 60028) and diameter by gauge number (ASTM B258), solid wire at 20 °C`
      : say`IEC 60228 class 5, the most that a fine-stranded conductor may have at 20 °C`,
  });
}

const showPerLength = (ohmsPerMetre: number): string => `${formatNumber(ohmsPerMetre * 1000, 4)} ohm/km`;
