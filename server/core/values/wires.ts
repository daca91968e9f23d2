import { waysOf } from '../circuits/ways.ts';
import { later, say } from '../language/say.ts';
import { lengthOf, wireOf } from '../model/link-wire.ts';
import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';
import { copperResistance, sizeResistance } from '../motion/wire.ts';
import { formatNumber } from '../units/index.ts';
import { type Collector, constantInput, inputOf } from './collect.ts';
import { type Derived, type Input, inputFrom } from './derived.ts';
import { type Kept, keepUnder } from './keep.ts';
import { section } from './piece.ts';
import { deriveCapacities, earthLinks } from './wire-capacity.ts';
import { type Currents, currentsIn } from './wire-currents.ts';
import { deriveLoadDrops, type WireDrop } from './wire-drop.ts';

/** By link, which stays the same object while its text does. */
const kept = new WeakMap<Link, Kept<WireDrop>>();

/**
 * Resistance, current, capacity and loss of every link whose wire is written down, and what each load loses on its way
 * there and back. Links without a wire are taken for ideal, and nothing is said of them; protective conductors carry
 * nothing unless something fails.
 */
export const deriveWires = section(addWires);

function addWires(machine: Machine, out: Collector): void {
  const ways = waysOf(machine);
  const currents = currentsIn(machine);
  const names = nameWires(machine.links);
  const earth = earthLinks(machine);
  const drops = new Map<number, WireDrop>();
  for (const [place, way] of ways.all.entries()) {
    const name = way.link && names.get(way.link);
    const { link } = way;
    if (!link || name === undefined || !wireOf(link)) continue;
    const carried = earth.has(link) ? undefined : currents;
    const read = [name, carried !== undefined, ...(carried?.madeOf(place) ?? [])];
    const drop = keepUnder(kept, link, read, out, () =>
      deriveWire(machine, link, `wires.${name}`, carried, place, out),
    );
    drops.set(place, drop);
  }
  deriveCapacities(machine, names, out);
  deriveLoadDrops(machine, ways, currents, drops, out);
}

/** What the wires of a machine are called in the addresses of values: by their label, else by their number. */
export function nameWires(links: readonly Link[]): ReadonlyMap<Link, string> {
  const labels = new Set(links.flatMap(({ label }) => label ?? []));
  const used = new Set<string>();
  return new Map(
    links.map((link) => {
      const { label, number } = link;
      // The ends of one link share its label, and only the first of them is called by it.
      const isFirst = label !== undefined && !used.has(label);
      const name = isFirst ? label : labels.has(String(number)) ? `link-${number}` : String(number);
      used.add(name);
      return [link, name];
    }),
  );
}

function deriveWire(
  machine: Machine,
  link: Link,
  base: string,
  currents: Currents | undefined,
  place: number,
  out: Collector,
): WireDrop {
  const resistance = deriveResistance(machine, link, base, out);
  const flow = currents?.through(place);
  const current = flow && out.add({ address: `${base}.current`, unit: 'A', ...flow });
  if (!current && currents) out.pass(`${base}.current`, say`something that draws a known current through it`);
  const drop =
    resistance &&
    current &&
    out.add({
      address: `${base}.drop`,
      unit: 'V',
      formula: '{resistance} × {current}',
      inputs: [inputFrom(resistance, later`resistance`), inputFrom(current, later`current`)],
      si: resistance.si * current.si,
      source: say`Ohm's law; this conductor alone, not the one that leads back`,
    });
  return { link, base, drop };
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
