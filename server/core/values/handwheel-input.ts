import { type Nets, netsOf } from '../circuits/nets.ts';
import { circuitsDoing } from '../circuits/signals.ts';
import type { Part } from '../model/machine.ts';
import { type Machine, partsWithSheets } from '../model/resolve.ts';
import type { Circuit } from '../model/sheet.ts';
import { terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import { fact, keepIf } from '../reuse/fact.ts';
import { isSameList } from '../same-list.ts';

/** A counting signal of a handwheel and the input that one of its wires leads to. */
export interface WheelSignal {
  readonly wheel: Part;
  readonly signal: Circuit;
  readonly part: Part;
  readonly circuit: Circuit;
  readonly terminal: string;
  readonly link: Link;
}

/** The handwheel of the machine; undefined while it names none that is there. */
export function findWheel(machine: Machine): Part | undefined {
  const name = machine.fields.child('handwheel').text('part');
  return name && machine.parts.get(name.value);
}

/** Both signals are of one kind and go to one part, so the first that is wired stands for both. */
export const wheelSignal = fact('machine', findSignal, keepIf(isSameSignal));

function isSameSignal(a: WheelSignal | undefined, b: WheelSignal | undefined): boolean {
  return a !== undefined && b !== undefined && isSameList(Object.values(a), Object.values(b));
}

function findSignal(machine: Machine): WheelSignal | undefined {
  const nets = netsOf(machine);
  const wheel = findWheel(machine);
  if (!wheel) return undefined;
  for (const counting of ['handwheel A', 'handwheel B']) {
    for (const signal of circuitsDoing(wheel, counting)) {
      const met = inputOn(machine, nets, wheel, signal, counting);
      if (met) return met;
    }
  }
  return undefined;
}

/** The input of another part for the same signal that one of the signal's wires leads to. */
function inputOn(
  machine: Machine,
  nets: Nets,
  wheel: Part,
  signal: Circuit,
  counting: string,
): WheelSignal | undefined {
  const live = signal.kind === 'line-out' ? signal.ends : signal.ends.slice(0, 1);
  const own = new Set(live.map((end) => nets.netOf(terminalId(wheel.name, end.text))));
  for (const { part } of partsWithSheets(machine)) {
    if (part === wheel) continue;
    for (const circuit of circuitsDoing(part, counting)) {
      const ends = circuit.kind === 'line-in' ? circuit.ends : circuit.ends.slice(0, 1);
      for (const { text: terminal } of ends) {
        const id = terminalId(part.name, terminal);
        const [link] = nets.linksAt(id);
        if (link && own.has(nets.netOf(id))) return { wheel, signal, part, circuit, terminal, link };
      }
    }
  }
  return undefined;
}
