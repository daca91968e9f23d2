import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind } from '../circuits/supply.ts';
import { placeOfEnd, reachOf, wayNetOf } from '../circuits/ways.ts';
import { later, say } from '../language/say.ts';
import type { End } from '../model/link.ts';
import type { Machine } from '../model/resolve.ts';
import { type TerminalId, terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import { factMap } from '../reuse/fact-map.ts';
import { formatBest } from '../units/index.ts';
import { type Collector, constantInput } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { type NamedWay, namedWays } from './named-ways.ts';
import { sectionOver } from './piece.ts';
import { supplyVoltage } from './supply.ts';
import { loadWays } from './wire-draws.ts';

/** What each wire loses, as a share of the supply that it hangs on. */
export const deriveShares = sectionOver(namedWays, deriveShare);

function deriveShare(machine: Machine, { link, slot, name }: NamedWay, out: Collector): void {
  const drop = out.get(`wires.${name}.drop`);
  if (!drop) return;
  const feeder = feederOf.get(machine, slot);
  // Wires of signals and coils hang on a supply through the circuit that they are in.
  const voltage = feeder ? voltageOf(machine, feeder.supply) : nearestVoltage(machine, link);
  if (voltage) addShareOf(drop, `wires.${name}.drop-share`, voltage, out);
}

/** What feeds a way: a supply, or else the mains. */
interface Feeder {
  readonly supply: CircuitAt | undefined;
}

/** By the slot of the way: what feeds the first load whose way leads through it. */
const feederOf = factMap<Machine, object, Feeder>(
  'machine',
  (machine) => {
    const feeders = new Map<object, Feeder>();
    for (const { supply, path } of loadWays(machine)) {
      const feeder = { supply };
      for (const slot of path) if (!feeders.has(slot)) feeders.set(slot, feeder);
    }
    return feeders;
  },
  (a, b) => a.supply === b.supply,
);

function nearestVoltage(machine: Machine, { from, to }: Link): Input | undefined {
  const supplyAt = ({ part, terminal }: End) => nearestTo.get(machine, terminalId(part, terminal));
  const supply = supplyAt(from) ?? supplyAt(to);
  return supply && voltageOf(machine, supply);
}

/** By terminal: the first of the supplies with a known voltage whose plus reaches it. */
const nearestTo = factMap<Machine, TerminalId, CircuitAt>('machine', (machine) => {
  const net = wayNetOf(machine);
  const nearest = new Map<TerminalId, CircuitAt>();
  for (const supply of circuitsOfKind(machine, 'power-out')) {
    const plus = placeOfEnd(net, supply, 0);
    if (plus === undefined || !voltageOf(machine, supply)) continue;
    for (const place of reachOf(net, plus).order) {
      const terminal = net.terminals[place] ?? '';
      if (!nearest.has(terminal)) nearest.set(terminal, supply);
    }
  }
  return nearest;
});

/** Adds a loss as a share of a voltage. */
export function addShareOf(drop: Derived, address: string, voltage: Input, out: Collector): void {
  if (!(voltage.value > 0)) return;
  out.add({
    address,
    unit: '%',
    formula: `{drop} / {${voltage.name}}`,
    inputs: [inputFrom(drop, later`drop`), voltage],
    si: drop.si / voltage.value,
    source: say`definition; 5 % is a usual limit (common practice, no source)`,
  });
}

/** What a supply gives, or the mains. */
export function voltageOf(machine: Machine, supply: CircuitAt | undefined): Input | undefined {
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
