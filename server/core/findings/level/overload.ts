import type { MachineAnalysis } from '../../analysis.ts';
import { groupOf } from '../../circuits/solve/grouping.ts';
import { circuitsOf } from '../../circuits/solve/solved.ts';
import { say } from '../../language/say.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { formatBest } from '../../units/index.ts';
import { badlyFed } from '../common/badly-fed.ts';
import { diagnosed } from '../common/diagnose.ts';
import { elsewhere, endsAt } from '../common/link-ends.ts';
import { findOverloads, isContact, type Overload } from '../common/overloads.ts';
import { presentAt } from '../common/sights.ts';
import type { Found } from '../rule.ts';
import { outputFights } from '../wiring/output-fights.ts';

/**
 * The findings for overloaded contacts, or for overloaded outputs. What also flows through an input that bears less is
 * told there, since its cure is the same; and so are outputs against each other.
 */
export function* overloadsOf(analysis: MachineAnalysis, contacts: boolean): Iterable<Found> {
  const told = new Set([
    ...diagnosed(analysis, 'over-rating').map(({ input }) => input.group),
    ...outputFights(analysis).map(({ group }) => group),
  ]);
  const { solved } = circuitsOf(analysis.machine);
  const unfed = badlyFed(analysis);
  for (const overload of findOverloads(analysis)) {
    if (unfed.has(overload.element.at.part.name)) continue; // it carries too much for being fed the wrong voltage
    const group = groupOf(solved, solved.board.elements.indexOf(overload.element));
    if (group && told.has(group)) continue;
    if (isContact(overload.element) === contacts) yield foundFor(analysis, overload);
  }
}

function foundFor(analysis: MachineAnalysis, { element, quantity, value, most }: Overload): Found {
  const { part, circuit } = presentAt(analysis, element.at);
  const signal = circuit.ends[circuit.kind === 'sensor' ? 2 : 0]?.text ?? '';
  const terminals = [signal, ...circuit.ends.map((end) => end.text)].map((each) =>
    terminalId(part.name, each),
  );
  const [end] = terminals.flatMap((terminal) => endsAt(analysis, terminal));
  const rating = circuit.figures.quantity(quantity);
  return {
    at: end?.at ?? part.key,
    data: {
      terminal: terminalId(part.name, signal),
      part: part.name,
      quantity,
      value: formatBest(value, quantity, 3),
      most: formatBest(most, quantity, 3),
    },
    related: [
      {
        ...elsewhere(analysis, part.sheet?.file),
        at: rating?.at ?? circuit.key,
        note: say`${circuit.name} of ${part.name}: ${quantity} ${rating?.text ?? ''}`,
      },
    ],
  };
}
