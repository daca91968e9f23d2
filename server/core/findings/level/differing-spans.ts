import type { MachineAnalysis } from '../../analysis.ts';
import { spanOf } from '../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { say } from '../../language/say.ts';
import { type Keyed, keyedInMeaning } from '../../model/settings.ts';
import type { Data, Related } from '../../problem.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import type { Span as Place } from '../../syntax/node.ts';
import type { Span } from '../../units/index.ts';
import { readVolts } from '../../values/spindle-parts.ts';
import { isFaulty } from '../common/held-back.ts';
import { canBeJudged } from '../common/judgeable.ts';
import { elsewhere } from '../common/link-ends.ts';
import { placeOf, presentAt } from '../common/sights.ts';

/** An analog output and an input that understand the same signal differently. */
export interface DifferingSpans {
  readonly input: SolvedInput;
  readonly at: Place;
  readonly data: Data;
  readonly related: readonly Related[];
  /** The setting that says which span the input takes, where it has one. */
  readonly keyed: Keyed | undefined;
  readonly gives: readonly [number, number];
}

/** Every analog input whose span is not that of the output that drives it. */
export const differingSpans = fact('analysis', (analysis: MachineAnalysis): readonly DifferingSpans[] => {
  return canBeJudged(analysis) ? differingAt(analysis).filter((differing) => differing !== undefined) : [];
});

const differingAt = factOver('analysis', ({ machine }: MachineAnalysis) => inputsOf(machine), spansOf);

/** What an input and the output that drives it make of the signal; undefined where they agree or nobody can tell. */
export function spansOf(analysis: MachineAnalysis, input: SolvedInput): DifferingSpans | undefined {
  const place = input.operations[0]?.actor.elements[0] ?? -1;
  const element = input.solution.circuit.board.elements[place];
  if (input.at.circuit.kind !== 'analog-in' || element?.at.circuit.kind !== 'analog-out') return undefined;
  if (!canBeJudged(analysis, input)) return undefined;
  const output = presentAt(analysis, element.at);
  const at = presentAt(analysis, input.at);
  const gives = spanOf(output.circuit, 'span');
  const given = output.circuit.figures.span('span');
  const keyed = keyedInMeaning(analysis.machine.file, at.part, 'speed-reference');
  if (keyed?.origin === 'set' && isFaulty(analysis, keyed.scalar)) return undefined;
  const set = keyed && readVolts(keyed.scalar.text);
  const stated = at.circuit.figures.span('span');
  const takes = set ?? stated?.value;
  if (!gives || !given || !takes || isSameSpan(gives, takes)) return undefined;
  if (!at.circuit.does && !keyed && isWithin(gives, takes)) return undefined;
  return {
    input,
    keyed,
    gives,
    at: keyed?.origin === 'set' && set ? keyed.scalar : placeOf(analysis, input),
    data: {
      output: `${output.part.name}.${output.circuit.ends[0]?.text ?? ''}`,
      input: `${at.part.name}.${at.circuit.ends[0]?.text ?? ''}`,
      gives: given.text,
      takes: keyed && set ? keyed.scalar.text : (stated?.text ?? ''),
      does: at.circuit.figures.text('does')?.value ?? '',
      isMore: gives[1] > takes.most.value,
    },
    related: [
      {
        ...elsewhere(analysis, output.part.sheet?.file),
        at: given.at,
        note: say`${output.circuit.name} of ${output.part.name} gives ${given.text}`,
      },
    ],
  };
}

/** An input that is there for nothing that is asked of it only measures: less than its span is measured as well. */
function isWithin([least, most]: readonly [number, number], span: Span): boolean {
  return least >= span.least.value && most <= span.most.value;
}

/** Equal up to a thousandth of the span. */
export function isSameSpan([least, most]: readonly [number, number], span: Span): boolean {
  const slack = 1e-3 * Math.abs(most - least);
  return Math.abs(span.least.value - least) <= slack && Math.abs(span.most.value - most) <= slack;
}
