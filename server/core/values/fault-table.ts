import type { Nets } from '../circuits/nets.ts';
import type { Fault } from '../circuits/solve/faults.ts';
import { faultsOf } from '../circuits/solve/solved.ts';
import type { Verdict } from '../circuits/solve/verdict.ts';
import { say } from '../language/say.ts';
import { nameLink } from '../model/link-number.ts';
import type { Machine } from '../model/resolve.ts';
import { formatBest } from '../units/index.ts';
import { isWired } from './circuits.ts';

/** What the single faults around one input would make the machine believe. */
export interface FaultRow {
  readonly part: string;
  readonly circuit: string;
  /** The terminal that carries the signal. */
  readonly terminal: string;
  /** What the part uses the input for, in the words of its sheet; empty where it has no purpose. */
  readonly does: string;
  /** By how a fault is noticed, the faults that are noticed so: by kind, one name for each. */
  readonly faults: ReadonlyMap<Verdict, ReadonlyMap<Fault['kind'], readonly string[]>>;
}

/**
 * The single faults of the wiring by input, in the order of the machine. Inputs that nothing reaches are left out, and
 * so are faults that change nothing.
 */
export function faultTable(machine: Machine, nets: Nets): FaultRow[] {
  const rows = new Map<string, FaultRow & { readonly faults: Map<Verdict, Map<Fault['kind'], string[]>> }>();
  for (const { input, fault, verdict } of faultsOf(machine).flatMap(({ rows: found }) => found)) {
    if (!isWired(nets, input)) continue;
    const { part, circuit } = input.at;
    const key = `${part.name}.${circuit.name}`;
    const row = rows.get(key) ?? {
      part: part.name,
      circuit: circuit.name,
      terminal: circuit.ends[0]?.text ?? '',
      does: circuit.figures.text('does')?.value ?? '',
      faults: new Map(),
    };
    rows.set(key, row);
    const byKind = row.faults.get(verdict) ?? new Map<Fault['kind'], string[]>();
    row.faults.set(verdict, byKind);
    const names = byKind.get(fault.kind) ?? [];
    byKind.set(fault.kind, names);
    const name = nameFault(machine, fault);
    if (!names.includes(name)) names.push(name);
  }
  return [...rows.values()];
}

function nameFault(machine: Machine, fault: Fault): string {
  switch (fault.kind) {
    case 'broken':
      return nameLink(machine, fault.link);
    case 'shorted':
      return say`${fault.terminal} on ${fault.rail} (${formatBest(fault.volts, 'voltage')})`;
    case 'welded':
      return `${fault.part}.${fault.circuit}${fault.side === undefined ? '' : say`, its ${fault.side} side`}`;
    case 'supply-lost':
      return `${fault.supply.at.part.name}.${fault.supply.at.circuit.name}`;
  }
}
