import type { CircuitAt } from '../circuits/signals.ts';
import { placeOfEnd, reachOf, type Ways } from '../circuits/ways.ts';
import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';
import { isSameList } from '../same-list.ts';
import { formatBest } from '../units/index.ts';
import { type Collector, constantInput } from './collect.ts';
import { type Derived, type Input, inputFrom } from './derived.ts';
import { type Kept, keepUnder } from './keep.ts';
import { supplyVoltage } from './supply.ts';
import type { Currents } from './wire-currents.ts';

/** What one wire loses, as far as it is known. */
export interface WireDrop {
  readonly link: Link;
  readonly base: string;
  readonly drop: Derived | undefined;
}

/**
 * What each wire loses as a share of its supply, and what each load loses on its way there and back.
 * @param drops by place of the way; wires that are not written down are taken for ideal
 */
export function deriveLoadDrops(
  machine: Machine,
  ways: Ways,
  currents: Currents,
  drops: ReadonlyMap<number, WireDrop>,
  out: Collector,
): void {
  const shared = new Set<number>();
  for (const { load, supply, path } of currents.loads) {
    const voltage = voltageOf(machine, supply);
    const wires = path.flatMap((place) => drops.get(place) ?? []);
    if (wires.length === 0) continue;
    for (const place of path) {
      const drop = drops.get(place);
      if (drop && voltage && !shared.has(place)) addShare(drop, voltage, out);
      shared.add(place);
    }
    const base = `parts.${load.part.name}`;
    if (out.get(`${base}.drop`)) continue; // a part with two inputs is judged by its first
    const read = [base, ...signatureOf(voltage), ...wires.flatMap(({ link, drop }) => [link, drop])];
    keepUnder(keptLoads, path, read, out, () => deriveLoadDrop(base, wires, voltage, out));
  }
  addSignalShares(machine, ways, drops, shared, out);
}

/** By the path of a load, which stays the same while nothing on it is joined otherwise. */
const keptLoads = new WeakMap<readonly number[], Kept>();

function deriveLoadDrop(
  base: string,
  wires: readonly WireDrop[],
  voltage: Input | undefined,
  out: Collector,
): void {
  const known = wires.flatMap(({ link, drop }) => (drop ? [{ link, drop }] : []));
  if (known.length < wires.length) {
    out.lack(`${base}.drop`, say`the lengths of its wires, and what flows through them`);
    return;
  }
  const inputs = known.map(({ link, drop }) =>
    inputFrom(drop, say`drop in ${link.label ?? say`wire ${link.number}`}`),
  );
  const total = out.add({
    address: `${base}.drop`,
    unit: 'V',
    formula: inputs.map(({ name }) => `{${name}}`).join(' + '),
    inputs,
    si: known.reduce((sum, { drop }) => sum + drop.si, 0),
    source: say`the sum along the way there and back; wires without a size are taken for ideal`,
  });
  if (total && voltage) addShareOf(total, `${base}.drop-share`, voltage, out);
}

/** Wires of signals and coils hang on a supply through the circuit that they are in. */
function addSignalShares(
  machine: Machine,
  ways: Ways,
  drops: ReadonlyMap<number, WireDrop>,
  shared: ReadonlySet<number>,
  out: Collector,
): void {
  const supplies = [...machine.parts.values()].flatMap((part) =>
    [...(part.sheet?.circuits.values() ?? [])]
      .filter(({ kind }) => kind === 'power-out')
      .map((circuit) => ({ part, circuit })),
  );
  const voltages = supplies.map((supply) => voltageOf(machine, supply));
  const nearest = nearestSupplies(ways, supplies, voltages);
  const voltageAt = (place: number) => voltages[nearest.get(place) ?? -1];
  for (const [place, drop] of drops) {
    const way = ways.all[place];
    const voltage = way && (voltageAt(way.a) ?? voltageAt(way.b));
    if (voltage && !shared.has(place)) addShare(drop, voltage, out);
  }
}

interface Nearest {
  readonly isKnown: readonly boolean[];
  readonly byPlace: ReadonlyMap<number, number>;
}

/** By what stays the same while nothing is joined otherwise. */
const keptNearest = new WeakMap<Ways['at'], Nearest>();

/** By terminal: the first of the supplies with a known voltage whose plus reaches it, by its place in the list. */
function nearestSupplies(
  ways: Ways,
  supplies: readonly CircuitAt[],
  voltages: readonly (Input | undefined)[],
): Nearest['byPlace'] {
  const isKnown = voltages.map((voltage) => voltage !== undefined);
  const kept = keptNearest.get(ways.at);
  if (kept && isSameList(kept.isKnown, isKnown)) return kept.byPlace;
  const byPlace = new Map<number, number>();
  for (const [index, supply] of supplies.entries()) {
    const plus = placeOfEnd(ways, supply, 0);
    if (!isKnown[index] || plus === undefined) continue;
    for (const place of reachOf(ways, plus).order) if (!byPlace.has(place)) byPlace.set(place, index);
  }
  keptNearest.set(ways.at, { isKnown, byPlace });
  return byPlace;
}

function addShare({ base, drop }: WireDrop, voltage: Input, out: Collector): void {
  if (drop) addShareOf(drop, `${base}.drop-share`, voltage, out);
}

function addShareOf(drop: Derived, address: string, voltage: Input, out: Collector): void {
  if (!(voltage.value > 0)) return;
  keepUnder(keptShares, drop, [address, ...signatureOf(voltage)], out, () => {
    out.add({
      address,
      unit: '%',
      formula: `{drop} / {${voltage.name}}`,
      inputs: [inputFrom(drop, later`drop`), voltage],
      si: drop.si / voltage.value,
      source: say`definition; 5 % is a usual limit (common practice, no source)`,
    });
  });
}

/** By the loss that they are shares of. */
const keptShares = new WeakMap<Derived, Kept>();

/** All that can differ in a figure that is read anew for each version. */
function signatureOf(input: Input | undefined): readonly unknown[] {
  return [input?.name, input?.value, input?.at?.block, input?.at?.from, input?.at?.to, input?.file];
}

function voltageOf(machine: Machine, supply: CircuitAt | undefined): Input | undefined {
  if (supply) return supplyVoltage(machine, { supply, load: supply, link: undefined });
  const mains = machine.fields.mains('mains');
  if (!mains) return undefined;
  const { value } = mains.value.voltage;
  return {
    ...constantInput(later`mains voltage`, value, formatBest(value, 'voltage')),
    file: machine.file,
    at: mains.at,
  };
}
