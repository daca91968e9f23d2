import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { formatNumber } from '../../../units/index.ts';
import { showBriefly } from '../../../values/derived.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'spindle/plate-disagrees',
  severity: 'warning',
  title: later`Poles, frequency and speed on the plate do not fit each other`,
  find: findPlate,
  say: (data) =>
    say`With ${word(data, 'poles')} poles at ${word(data, 'frequency')} the field of ${word(data, 'motor')} turns at ${word(data, 'field')}, but its plate says ${word(data, 'plate')}: ${word(data, 'why')}. Read the plate again; the number of poles is the likeliest slip.`,
};

/** An induction motor of this size slips no more than this at full load (common practice, no source). */
const MOST_SLIP = 0.15;

function* findPlate(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const slip = analysis.values.byAddress.get('spindle.slip');
  const field = analysis.values.byAddress.get('spindle.synchronous-speed');
  const motor = analysis.machine.fields.child('spindle').text('motor');
  const plate = slip?.inputs[1];
  const [frequency, poles] = field?.inputs ?? [];
  if (!slip || !field || !motor || !plate?.at || !frequency || !poles || restsOnFault(analysis, slip)) return;
  if (slip.si > -1e-3 && slip.si <= MOST_SLIP) return;
  yield {
    at: motor.at,
    data: {
      motor: motor.value,
      poles: poles.shown,
      frequency: frequency.shown,
      field: showBriefly(field),
      plate: plate.shown,
      why:
        slip.si < 0
          ? say`no motor turns faster than its field`
          : say`a slip of ${formatNumber(slip.value, 2)} % is too much`,
    },
    related: [
      {
        ...(plate.file !== undefined && plate.file !== analysis.file && { file: plate.file }),
        at: plate.at,
        note: say`plate speed ${plate.shown}`,
      },
    ],
  };
}
