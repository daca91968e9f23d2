import type { MachineAnalysis } from '../../analysis.ts';
import { type TerminalId, terminalId } from '../../circuits/nets.ts';
import type { Part } from '../../model/machine.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Circuit } from '../../model/sheet.ts';
import { groupBy } from './group.ts';

/** Circuits through which a current can flow from end to end, at least in one of their states. */
const CONDUCTING: ReadonlySet<string> = new Set(['fuse', 'contact', 'changeover']);

/** An end of a circuit, on the terminal that it stands on. */
export interface CircuitEnd {
  readonly part: Part;
  readonly circuit: Circuit;
  readonly index: number;
  readonly terminal: TerminalId;
}

/** All ends of all circuits of the machine. */
export function circuitEnds({ machine }: MachineAnalysis): CircuitEnd[] {
  return partsWithSheets(machine).flatMap(({ part, sheet }) =>
    [...sheet.circuits.values()].flatMap((circuit) =>
      circuit.ends.map((end, index) => ({ part, circuit, index, terminal: terminalId(part.name, end.text) })),
    ),
  );
}

/**
 * The nets that current can reach from a terminal through links, fuses and closed contacts.
 * @param skip a part whose own contacts count as open
 */
export function reachFrom(analysis: MachineAnalysis, start: TerminalId, skip?: Part): ReadonlySet<number> {
  const { nets } = analysis;
  const ends = circuitEnds(analysis).filter(
    ({ circuit, part }) => CONDUCTING.has(circuit.kind) && part !== skip,
  );
  const byCircuit = groupBy(ends, ({ part, circuit }) => `${part.name}.${circuit.name}`);
  const byNet = groupBy(ends, ({ terminal }) => nets.netOf(terminal));
  const reached = new Set<number>();
  const open = [nets.netOf(start)];
  for (let net = open.pop(); net !== undefined; net = open.pop()) {
    if (reached.has(net)) continue;
    reached.add(net);
    for (const { part, circuit } of byNet.get(net) ?? []) {
      for (const other of byCircuit.get(`${part.name}.${circuit.name}`) ?? [])
        open.push(nets.netOf(other.terminal));
    }
  }
  return reached;
}
