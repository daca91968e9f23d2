import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { inputsOf } from '../../../circuits/solve/solved.ts';
import { later, say } from '../../../language/say.ts';
import type { Keyed } from '../../../model/settings.ts';
import type { Fix } from '../../../problem.ts';
import { readVolts } from '../../../values/spindle-parts.ts';
import { withCures } from '../../common/cure.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type DifferingSpans, differingSpans, isSameSpan, spansOf } from '../differing-spans.ts';

export const rule: Rule = {
  code: 'level/reference-span',
  severity: 'error',
  title: later`An analog output and its input have different spans`,
  find: findSpans,
  say: (data) =>
    say`${word(data, 'output')} gives ${word(data, 'gives')} and ${word(data, 'input')} takes ${word(data, 'takes')} for the same ${word(data, 'does') || 'span'}, so ${data.isMore === true ? 'the top is reached too early' : 'the top is never reached'}. Let both use the same span.`,
};

function* findSpans(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const differing of differingSpans(analysis)) yield describe(analysis, differing);
}

function describe(analysis: MachineAnalysis, { input, keyed, gives, ...found }: DifferingSpans): Found {
  const { part, circuit } = input.at;
  return withCures(
    analysis,
    found,
    () => (keyed ? setSpan(analysis, keyed, gives) : []),
    (after) =>
      inputsOf(after.machine).every(
        (each) =>
          each.at.part.name !== part.name || each.at.circuit.name !== circuit.name || !spansOf(after, each),
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
