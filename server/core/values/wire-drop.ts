import type { CircuitAt } from '../circuits/signals.ts';
import { groupBy } from '../group.ts';
import { say } from '../language/say.ts';
import { wireOf } from '../model/link-wire.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { factGroups } from '../reuse/fact-index.ts';
import { factMap } from '../reuse/fact-map.ts';
import { isSameList } from '../same-list.ts';
import type { Collector } from './collect.ts';
import { inputFrom } from './input.ts';
import { type NamedWay, namedWays } from './named-ways.ts';
import { sectionOver } from './piece.ts';
import { type LoadWay, loadWays } from './wire-draws.ts';
import { addShareOf, voltageOf } from './wire-share.ts';

/** What each load loses on its way there and back. A part with two inputs is judged by the first that has wires. */
export const deriveLoadDrops = sectionOver((machine) => loadsByPart(machine), deriveLoadDrop);

const byPart = factMap<Machine, string, readonly LoadWay[]>(
  'machine',
  (machine) => groupBy(loadWays(machine), ({ load }) => load.part.name),
  isSameList,
);

const loadsByPart = fact('machine', (machine: Machine): readonly (readonly LoadWay[])[] => [
  ...byPart.all(machine).values(),
]);

function deriveLoadDrop(machine: Machine, loads: readonly LoadWay[], out: Collector): void {
  for (const { load, supply, path } of loads) {
    const wires = path.flatMap((slot) => wiredAt.get(machine, slot) ?? []);
    if (wires.length === 0) continue;
    addLoadDrop(machine, load, supply, wires, out);
    return;
  }
}

/** By the slot of the way: the links whose wire is written down. */
const wiredAt = factGroups('machine', namedWays, ({ link, slot }) => (wireOf(link) ? [slot] : []));

function addLoadDrop(
  machine: Machine,
  load: CircuitAt,
  supply: CircuitAt | undefined,
  wires: readonly NamedWay[],
  out: Collector,
): void {
  const address = `parts.${load.part.name}.drop`;
  const known = wires.flatMap(({ link, name }) => {
    const drop = out.get(`wires.${name}.drop`);
    return drop ? [{ link, name, drop }] : [];
  });
  if (known.length < wires.length) {
    out.lack(address, say`the lengths of its wires, and what flows through them`);
    return;
  }
  const inputs = known.map(({ link, name, drop }) =>
    inputFrom(drop, say`drop in ${link.label ?? say`wire ${name}`}`),
  );
  const total = out.add({
    address,
    unit: 'V',
    formula: inputs.map(({ name }) => `{${name}}`).join(' + '),
    inputs,
    si: known.reduce((sum, { drop }) => sum + drop.si, 0),
    source: say`the sum along the way there and back; wires without a size are taken for ideal`,
  });
  const voltage = voltageOf(machine, supply);
  if (total && voltage) addShareOf(total, `${address}-share`, voltage, out);
}
