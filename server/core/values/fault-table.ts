import type { Nets } from '../circuits/nets.ts';
import type { Fault } from '../circuits/solve/faults.ts';
import { circuitsOf, GRAVITY } from '../circuits/solve/solved.ts';
import type { Verdict } from '../circuits/solve/verdict.ts';
import type { Machine } from '../model/resolve.ts';
import { formatBest } from '../units/index.ts';
import { isWired, nameLink } from './circuits.ts';
import { levelAt, type TableCell } from './input-table.ts';

/** Faults of one input that have the same consequences. */
export interface FaultLine {
  readonly part: string;
  readonly circuit: string;
  /** The terminal that carries the signal. */
  readonly terminal: string;
  /** What the part uses the input for, in the words of its sheet; empty where it has no purpose. */
  readonly does: string;
  readonly kind: Fault['kind'];
  /** What fails, one name for each fault: wires, terminals with the rail that they touch, contacts, supplies. */
  readonly what: readonly string[];
  readonly rest: TableCell;
  readonly operated: TableCell;
  readonly seen: Verdict;
}

/** What single faults of the wiring would make the machine believe, the gravest first. Inputs that nothing reaches are left out. */
export function faultTable(machine: Machine, nets: Nets): FaultLine[] {
  const lines = new Map<string, FaultLine & { readonly what: string[] }>();
  for (const { input, fault, rest, operated, verdict } of circuitsOf(machine).faults) {
    if (!isWired(nets, input)) continue;
    const { part, circuit } = input.at;
    const [atRest, whenOperated] = [levelAt(input, rest), levelAt(input, operated)];
    const key = [part.name, circuit.name, fault.kind, verdict, atRest.shown, whenOperated.shown].join('\n');
    const line = lines.get(key);
    if (line) {
      const name = nameFault(fault);
      if (!line.what.includes(name)) line.what.push(name);
      continue;
    }
    lines.set(key, {
      part: part.name,
      circuit: circuit.name,
      terminal: circuit.ends[0]?.text ?? '',
      does: circuit.figures.text('does')?.value ?? '',
      kind: fault.kind,
      what: [nameFault(fault)],
      rest: atRest,
      operated: whenOperated,
      seen: verdict,
    });
  }
  return [...lines.values()].sort((a, b) => GRAVITY.indexOf(b.seen) - GRAVITY.indexOf(a.seen));
}

function nameFault(fault: Fault): string {
  switch (fault.kind) {
    case 'broken':
      return nameLink(fault.link);
    case 'shorted':
      return `${fault.terminal} on ${fault.rail} (${formatBest(fault.volts, 'voltage')})`;
    case 'welded':
      return `${fault.part}.${fault.circuit}${fault.side === undefined ? '' : `, its ${fault.side} side`}`;
    case 'supply-lost':
      return `${fault.supply.at.part.name}.${fault.supply.at.circuit.name}`;
  }
}
