import { closedAtRest } from '../circuits/solve/figures.ts';
import { inputsOf } from '../circuits/solve/solved.ts';
import { together, turnActor, turnSense } from '../findings/common/sense-fixes.ts';
import { presentAt } from '../findings/common/sights.ts';
import type { Place, Refactoring } from './refactoring.ts';

/** A switch that closes when it is operated becomes one that opens, and the input that it acts on is told so. */
export function* closeContacts({ analysis, steps }: Place): Generator<Refactoring> {
  const [section, entry] = steps;
  if (analysis.kind !== 'machine' || section?.kind !== 'pair' || entry?.kind !== 'pair') return;
  if (section.pair.key.text !== 'parts') return;
  const name = entry.pair.key.text;
  if (analysis.problems.length > 0 || !analysis.machine.parts.get(name)?.sheet) return;
  for (const input of inputsOf(analysis.machine)) {
    const operation = input.operations.find(({ actor }) => actor.part === name && actor.mover === 'contact');
    const element = operation && input.solution.circuit.board.elements[operation.actor.elements[0] ?? -1];
    if (!operation || !element) continue;
    const at = presentAt(analysis, element.at);
    if (at.circuit.kind !== 'contact' || closedAtRest(analysis.machine, at.part, at.circuit)) continue;
    for (const turn of turnActor(analysis, input, operation.actor)) {
      const both = together(turn, turnSense(analysis, input));
      if (both) yield { title: both.title, kind: 'refactor.rewrite', edits: both.edits };
    }
  }
}
