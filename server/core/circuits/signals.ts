import { CIRCUIT_KINDS } from '../../../schemas/index.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { partsWithSheets } from '../model/resolve.ts';
import type { Circuit } from '../model/sheet.ts';
import { circuitsFor } from '../model/sheet-circuits.ts';
import { terminalId } from '../model/terminal-id.ts';
import { factBy } from '../reuse/fact.ts';
import type { Nets } from './nets.ts';

/** A circuit of a part of the machine. */
export interface CircuitAt {
  readonly part: Part;
  readonly circuit: Circuit;
}

const placed = new WeakMap<Part, Map<Circuit, CircuitAt>>();

/** A circuit of a part; the same object while both are. */
export function circuitAt(part: Part, circuit: Circuit): CircuitAt {
  let ofPart = placed.get(part);
  if (!ofPart) {
    ofPart = new Map();
    placed.set(part, ofPart);
  }
  let at = ofPart.get(circuit);
  if (!at) {
    at = { part, circuit };
    ofPart.set(circuit, at);
  }
  return at;
}

/** A signal from the output that makes it to the input that takes it; the output is undefined while nothing drives it. */
export interface Signal {
  readonly input: CircuitAt;
  readonly output: CircuitAt | undefined;
}

/**
 * Follows a signal of a drive (`pulse`, `direction`, `enable`) back through the wiring to the output of another part
 * that is there for the same purpose.
 */
export function signalInto(machine: Machine, nets: Nets, drive: Part, word: string): Signal | undefined {
  const input = circuitsDoing(drive, word)[0];
  if (!input) return undefined;
  const wanted = new Set(input.ends.map((end) => nets.netOf(terminalId(drive.name, end.text))));
  for (const output of outputsDoing(machine, word)) {
    if (output.part === drive) continue;
    const live = liveEnds(output.circuit).map((end) => nets.netOf(terminalId(output.part.name, end)));
    if (live.some((net) => wanted.has(net))) return { input: { part: drive, circuit: input }, output };
  }
  return { input: { part: drive, circuit: input }, output: undefined };
}

const outputsDoing = factBy('machine', (machine: Machine, word: string): readonly CircuitAt[] =>
  partsWithSheets(machine).flatMap(({ part }) =>
    circuitsDoing(part, word).flatMap((circuit) => (isOutput(circuit) ? circuitAt(part, circuit) : [])),
  ),
);

/** Circuits that give a signal rather than take one. */
export function isOutput(circuit: Circuit): boolean {
  return CIRCUIT_KINDS.get(circuit.kind)?.group === 'output';
}

/** The circuits of a part that are used for something, e.g. `pulse`. */
export function circuitsDoing({ sheet }: Part, word: string, axis?: string): readonly Circuit[] {
  const circuits = sheet ? circuitsFor(sheet, word) : [];
  return axis === undefined ? circuits : circuits.filter(({ does }) => does?.axis === axis);
}

/** The terminals of an output that carry its signal; its return or supply is common to many outputs and tells nothing. */
function liveEnds(circuit: Circuit): string[] {
  const ends = circuit.ends.map((end) => end.text);
  return circuit.kind === 'line-out' ? ends : ends.slice(0, 1);
}
