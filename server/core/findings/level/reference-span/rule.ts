import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { spanOf } from '../../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { circuitsOf } from '../../../circuits/solve/solved.ts';
import { type Keyed, keyedInMeaning } from '../../../model/settings.ts';
import type { Fix } from '../../../problem.ts';
import type { Span } from '../../../units/index.ts';
import { readVolts } from '../../../values/spindle-parts.ts';
import { withCures } from '../../common/cure.ts';
import { isFaulty } from '../../common/held-back.ts';
import { canBeJudged } from '../../common/judgeable.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { placeOf, presentAt } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'level/reference-span',
  severity: 'error',
  title: 'An analog output and its input have different spans',
  find: findSpans,
  say: (data) =>
    `${word(data, 'output')} gives ${word(data, 'gives')} and ${word(data, 'input')} takes ${word(data, 'takes')} for the same ${word(data, 'does') || 'span'}, so ${data.isMore === true ? 'the top is reached too early' : 'the top is never reached'}. Let both use the same span.`,
};

function* findSpans(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || !canBeJudged(analysis)) return;
  for (const input of circuitsOf(analysis.machine).solved.inputs) {
    const found = input.at.circuit.kind === 'analog-in' ? judge(analysis, input) : undefined;
    if (found) yield found;
  }
}

function judge(analysis: MachineAnalysis, input: SolvedInput): Found | undefined {
  const place = input.operations[0]?.actor.elements[0] ?? -1;
  const element = input.solution.circuit.board.elements[place];
  if (element?.at.circuit.kind !== 'analog-out' || !canBeJudged(analysis, input)) return undefined;
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
  const found = {
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
        note: `${output.circuit.name} of ${output.part.name} gives ${given.text}`,
      },
    ],
  };
  return withCures(
    analysis,
    found,
    () => (keyed ? setSpan(analysis, keyed, gives) : []),
    (after) =>
      circuitsOf(after.machine).solved.inputs.every(
        (each) =>
          each.at.part.name !== at.part.name ||
          each.at.circuit.name !== at.circuit.name ||
          !judge(after, each),
      ),
  );
}

function setSpan(
  analysis: MachineAnalysis,
  keyed: Keyed,
  gives: readonly [number, number],
): (Fix | undefined)[] {
  return keyed.setting.choices.flatMap((choice) => {
    const span = readVolts(choice);
    return span && isSameSpan(gives, span) ? [changeSetting(analysis, keyed, choice).fix] : [];
  });
}

function isSameSpan([least, most]: readonly [number, number], span: Span): boolean {
  const slack = 1e-3 * Math.abs(most - least);
  return Math.abs(span.least.value - least) <= slack && Math.abs(span.most.value - most) <= slack;
}
