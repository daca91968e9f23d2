import type { MachineAnalysis } from '../../analysis.ts';
import { groupBy } from '../../group.ts';
import type { Part } from '../../model/machine.ts';
import type { Circuit } from '../../model/sheet.ts';
import { type TerminalId, terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { factMap } from '../../reuse/fact-map.ts';
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
}

interface Conductors {
  readonly ends: readonly CircuitEnd[];
  readonly byPart: ReadonlyMap<Part, readonly CircuitEnd[]>;
}

/** All ends of all circuits of the machine. */
export function circuitEnds(analysis: MachineAnalysis): readonly CircuitEnd[] {
  return conductorsOf(analysis).ends;
}

/** The ends that stand on a net. */
export function endsOn(analysis: MachineAnalysis, net: number): readonly CircuitEnd[] {
  return byNet.get(analysis, net) ?? [];
}

const conductorsOf = fact('analysis', (analysis: MachineAnalysis): Conductors => {
  const ends = endsByPart(analysis).flat();
  return { ends, byPart: groupBy(ends, ({ part }) => part) };
});

const byNet = factMap<MachineAnalysis, number, readonly CircuitEnd[]>(
  'analysis',
  (analysis) => groupBy(circuitEnds(analysis), ({ net }) => net),
  isSameList,
);

const endsByPart = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => [...machine.parts.values()],
  ({ nets }: MachineAnalysis, part): readonly CircuitEnd[] =>
    [...(part.sheet?.circuits.values() ?? [])].flatMap((circuit) =>
      circuit.ends.map((end, index) => {
        const terminal = terminalId(part.name, end.text);
        return { part, circuit, index, terminal, net: nets.netOf(terminal) };
      }),
    ),
);

/**
 * The nets that current can reach from a terminal through links, fuses and closed contacts.
 * @param skip a part whose own contacts count as open
 */
export function reachFrom(analysis: MachineAnalysis, start: TerminalId, skip?: Part): ReadonlySet<number> {
  const { byPart } = conductorsOf(analysis);
  const reached = new Set<number>();
  const open = [analysis.nets.netOf(start)];
  for (let net = open.pop(); net !== undefined; net = open.pop()) {
    if (reached.has(net)) continue;
    reached.add(net);
    for (const { part, circuit } of endsOn(analysis, net)) {
      if (part === skip || !CONDUCTING.has(circuit.kind)) continue;
      for (const other of byPart.get(part) ?? []) if (other.circuit === circuit) open.push(other.net);
    }
  }
  return reached;
}
