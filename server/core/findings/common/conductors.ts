import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { partsOf } from '../../model/resolve.ts';
import type { Circuit } from '../../model/sheet.ts';
import { type TerminalId, terminalId } from '../../model/terminal-id.ts';
import { factIndex, factKeys } from '../../reuse/fact-index.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { isSameList } from '../../same-list.ts';

/** Circuits through which a current can flow from end to end, at least in one of their states. */
const CONDUCTING: ReadonlySet<string> = new Set(['fuse', 'contact', 'changeover']);

/** An end of a circuit, on the net that it stands on. */
export interface CircuitEnd {
  readonly part: Part;
  readonly circuit: Circuit;
  readonly index: number;
  readonly terminal: TerminalId;
  readonly net: number;
  /** The nets of all ends of the circuit. */
  readonly nets: readonly number[];
}

/** The ends that stand on a net. */
export function endsOn(analysis: MachineAnalysis, net: number): readonly CircuitEnd[] {
  return byNet.get(analysis, net) ?? [];
}

/** Whether a supply of the machine stands on a net. */
export function isSupplied(analysis: MachineAnalysis, net: number): boolean {
  return supplied.get(analysis, net) === true;
}

/** The ends of all circuits, part by part. */
const endsByPart = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  ({ nets }: MachineAnalysis, part): readonly CircuitEnd[] =>
    [...(part.sheet?.circuits.values() ?? [])].flatMap((circuit) => {
      const terminals = circuit.ends.map((end) => terminalId(part.name, end.text));
      const netsOfEnds = terminals.map((terminal) => nets.netOf(terminal));
      return terminals.map((terminal, index) => {
        return { part, circuit, index, terminal, net: netsOfEnds[index] ?? -1, nets: netsOfEnds };
      });
    }),
);

const byNet = factIndex<MachineAnalysis, readonly CircuitEnd[], number, readonly CircuitEnd[]>(
  'analysis',
  endsByPart,
  (ends) => new Set(ends.map(({ net }) => net)),
  (parts, net) => parts.flatMap((ends) => ends.filter((end) => end.net === net)),
  isSameList,
);

const supplied = factKeys('analysis', endsByPart, (ends) =>
  ends.flatMap(({ circuit, net }) => (circuit.kind === 'power-out' ? [net] : [])),
);

/**
 * The nets that current can reach from a terminal through links, fuses and closed contacts.
 * @param skip a part whose own contacts count as open
 */
export function reachFrom(analysis: MachineAnalysis, start: TerminalId, skip?: Part): ReadonlySet<number> {
  const reached = new Set<number>();
  const open = [analysis.nets.netOf(start)];
  for (let net = open.pop(); net !== undefined; net = open.pop()) {
    if (reached.has(net)) continue;
    reached.add(net);
    for (const { part, circuit, nets } of endsOn(analysis, net))
      if (part !== skip && CONDUCTING.has(circuit.kind)) open.push(...nets);
  }
  return reached;
}
