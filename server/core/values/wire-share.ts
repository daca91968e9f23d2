import { placeOfTerminal } from '../circuits/places.ts';
import { reachFromEnd } from '../circuits/reach-from.ts';
import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind } from '../circuits/supply.ts';
import type { Reach } from '../circuits/ways.ts';
import { later, say } from '../language/say.ts';
import type { End } from '../model/link.ts';
import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';
import { factIndex } from '../reuse/fact-index.ts';
import { factOver } from '../reuse/fact-over.ts';
import { formatBest } from '../units/index.ts';
import { type Collector, constantInput } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { type NamedWay, namedWays } from './named-ways.ts';
import { sectionOver } from './piece.ts';
import { supplyVoltage } from './supply.ts';
import { type LoadWay, loadWays } from './wire-draws.ts';

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
const feederOf = factIndex<Machine, LoadWay, object, Feeder>(
  'machine',
  loadWays,
  ({ path }) => path,
  ([first]) => ({ supply: first?.supply }),
  (a, b) => a.supply === b.supply,
);

function nearestVoltage(machine: Machine, { from, to }: Link): Input | undefined {
  const supply = nearestTo(machine, from) ?? nearestTo(machine, to);
  return supply && voltageOf(machine, supply);
}

/** The first of the supplies with a known voltage whose plus reaches an end. */
function nearestTo(machine: Machine, { part, terminal }: End): CircuitAt | undefined {
  const place = placeOfTerminal(machine, part, terminal);
  return place === undefined ? undefined : nearestAt.get(machine, place);
}

/** What the plus of a supply reaches. */
interface Reaching {
  readonly supply: CircuitAt;
  readonly reach: Reach;
}

const reachings = factOver(
  'machine',
  (machine: Machine) => circuitsOfKind(machine, 'power-out'),
  (machine: Machine, supply): Reaching | undefined => {
    const reach = voltageOf(machine, supply) && reachFromEnd(machine, supply, 0);
    return reach && { supply, reach };
  },
);

/** By the place of a terminal. */
const nearestAt = factIndex<Machine, Reaching, number, CircuitAt | undefined>(
  'machine',
  (machine) => reachings(machine).filter((each) => each !== undefined),
  ({ reach }) => reach.order,
  ([first]) => first?.supply,
  Object.is,
);

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
  if (supply) return supplyVoltage(machine, { supply });
  const mains = machine.fields.mains('mains');
  if (!mains) return undefined;
  const { value } = mains.value.voltage;
  return {
    ...constantInput(later`mains voltage`, value, formatBest(value, 'voltage')),
    file: machine.file,
    at: mains.at,
  };
}
