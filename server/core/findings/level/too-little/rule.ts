import type { Analysis } from '../../../analysis.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'level/too-little',
  severity: 'error',
  title: 'An input gets too little to turn on',
  find: findTooLittle,
  say: (data) =>
    `${nameInput(data)} gets too little to turn on: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')}. Use a higher voltage for its signal, an input for this voltage, or a smaller resistor in its wire.`,
};

function* findTooLittle(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'too-little')) yield findingFor(analysis, diagnosis);
}
