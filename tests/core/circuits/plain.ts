import type { FaultRow } from '../../../server/core/circuits/solve/faults.ts';
import { circuitsOf, solveApart } from '../../../server/core/circuits/solve/solved.ts';
import type { Fettle } from '../../../server/core/fettle.ts';
import type { Link } from '../../../server/core/model/wiring.ts';

/**
 * Everything that was solved of a text, as plain data: two that are equal are solved to the same. What has a place on the
 * board is called by its name, since a part that has lost its sheet keeps its places free for a while.
 */
export function solvedOf(fettle: Fettle, file: string, text: string): Record<string, unknown> {
  const analysis = fettle.analyse(file, text);
  if (analysis.kind !== 'machine') throw new Error('not read as a machine');
  const { solved, faults } = circuitsOf(analysis.machine);
  const { elements, conductors } = solved.board;
  const circuit = (element: number): string => {
    const { at } = elements[element] ?? {};
    return `${at?.part.name}.${at?.circuit.name}`;
  };
  const terminal = (place: number): string | undefined => conductors.terminals[place];
  return {
    inputs: solved.inputs.map(({ at, element, group, sense, rest, acts, operations, idle }) => ({
      name: `${at.part.name}.${at.circuit.name}`,
      isPresent: analysis.machine.parts.get(at.part.name) === at.part,
      element: circuit(element),
      group: [
        group.name,
        group.nodes.map(terminal),
        group.elements.map(circuit),
        group.wires.map(({ a, b, ohms }) => [terminal(a), terminal(b), ohms]),
      ],
      sense,
      rest,
      acts,
      operations: operations.map(({ actor, sight, acts: act }) => [
        actor.name,
        actor.elements.map(circuit),
        sight,
        act,
      ]),
      idle: idle.map(({ name }) => name),
    })),
    held: [...solved.held],
    groups: solved.groups.map(({ name }) => name),
    faults: faults.flatMap(({ rows }) => rows.map((row) => plainFault(row, analysis.machine.links))),
    values: [...analysis.values.byAddress.values()].map(({ address, value, working }) => [
      address,
      value,
      working,
    ]),
    missing: [...analysis.values.missing.values()],
    findings: fettle.findings(analysis).map(({ code, message }) => [code, message]),
  };
}

/** The same, as if it were the first text that anybody solves. */
export function solvedAnew(fettle: Fettle, file: string, text: string): Record<string, unknown> {
  return solveApart(() => solvedOf(fettle, file, text));
}

function plainFault({ input, fault, rest, operated, verdict }: FaultRow, links: readonly Link[]) {
  const what =
    fault.kind === 'broken'
      ? `link ${links.indexOf(fault.link)}`
      : fault.kind === 'supply-lost'
        ? `supply ${fault.supply.at.part.name}`
        : fault.kind === 'shorted'
          ? `rail ${fault.rail} at ${fault.volts}`
          : `contact ${fault.part}.${fault.circuit}`;
  return [`${input.at.part.name}.${input.at.circuit.name}`, fault.kind, what, rest, operated, verdict];
}
