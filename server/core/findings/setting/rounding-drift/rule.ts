import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { AxisEntry } from '../../../model/machine.ts';
import { showBriefly } from '../../../values/derived.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { keyedAt } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { findDiffering } from '../follow.ts';

export const rule: Rule = {
  code: 'setting/rounding-drift',
  severity: 'hint',
  title: later`The rounding of a setting adds up to more than one step of the axis`,
  find: findDrifting,
  say: (data) =>
    say`${word(data, 'keyed')} is as near as ${word(data, 'setting')} of ${word(data, 'part')} comes to ${word(data, 'exact')}: over the ${word(data, 'travel')} of ${word(data, 'axis')} it makes ${word(data, 'drift')}, more than one step of ${word(data, 'step')}. If that matters, take a gearing or a screw whose pulses come out even, or count in a unit with more digits.`,
};

function* findDrifting(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const found = describe(analysis, axis);
    if (found) yield found;
  }
}

function describe(analysis: MachineAnalysis, axis: AxisEntry): Found | undefined {
  const value = (name: string) => analysis.values.byAddress.get(`axes.${axis.name}.${name}`);
  const [drift, error, step] = [value('rounding-drift'), value('rounding-error'), value('resolution')];
  const [now, exact] = error?.inputs ?? [];
  const at = now?.address && analysis.values.byAddress.get(now.address)?.inputs[0]?.at;
  const keyed = at ? keyedAt(analysis, at) : undefined;
  if (!drift || !step || !now || !exact || !keyed || Math.abs(drift.si) <= step.si * (1 + 1e-9))
    return undefined;
  // A value that could be nearer is a setting that differs, or one that a measurement asks to correct.
  const wanted = analysis.values.byAddress.get(now.address?.replace(/\.now$/, '.wanted') ?? '');
  const isCorrected = exact.address?.endsWith('.corrected-pulses-per-length') ?? false;
  if (isCorrected && wanted && Math.abs(now.value / wanted.si - 1) > 1e-9) return undefined;
  if (findDiffering(analysis).some((each) => each.keyed.scalar === keyed.scalar)) return undefined;
  if (isFaulty(analysis, keyed.scalar) || restsOnFault(analysis, drift)) return undefined;
  return {
    at: keyed.origin === 'set' ? keyed.scalar : keyed.part.key,
    data: {
      axis: axis.name,
      part: keyed.part.name,
      setting: keyed.setting.name,
      keyed: keyed.scalar.text,
      exact: exact.shown,
      travel: axis.fields.text('travel')?.text ?? '',
      drift: showBriefly(drift).replace(/^-/, ''),
      step: showBriefly(step),
    },
  };
}
