import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import type { Related } from '../../../problem.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput } from '../../common/input-finding.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { readsOf, showLevel, sightsOf } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { addResistor } from '../series-resistor.ts';

export const rule: Rule = {
  code: 'level/over-rating',
  severity: 'error',
  title: 'An input gets more than it bears',
  find: findOver,
  say: (data) =>
    data.unit === 'A'
      ? `${word(data, 'most')} flow through ${nameInput(data)}, which bears ${word(data, 'bears')}: it can burn out, and the output that drives it too. Put a resistor into its wire, or use a lower voltage.`
      : `${nameInput(data)} gets ${word(data, 'most')} and bears ${word(data, 'bears')}: it can be destroyed. Use a lower voltage.`,
};

function* findOver(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'over-rating')) {
    const { input } = diagnosis;
    const unit = readsOf(input)?.unit ?? 'V';
    const most = Math.max(...sightsOf(input).map(({ value = 0 }) => Math.abs(value)));
    yield findingFor(analysis, diagnosis, {
      data: { unit, most: showLevel(most, unit), bears: showLevel(readsOf(input)?.most ?? 0, unit) },
      threshold: 'none',
      related: [ratingPlace(analysis, input)],
      propose: () => addResistor(analysis, input),
    });
  }
}

/** The line of the datasheet that says what an input bears. */
function ratingPlace(analysis: MachineAnalysis, { at: { part, circuit } }: SolvedInput): Related {
  const { figures, kind, name, key } = circuit;
  const rating = kind === 'opto-in' ? 'most' : kind === 'coil' ? 'voltage' : 'span';
  const given = rating === 'span' ? figures.span(rating) : figures.quantity(rating);
  return {
    ...elsewhere(analysis, part.sheet?.file),
    at: given?.at ?? key,
    note: `${name} of ${part.name}: ${rating} ${given?.text ?? ''}`,
  };
}
