import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Fix } from '../../../problem.ts';
import { withCures } from '../../common/cure.ts';
import { endsAt, swapTerminals } from '../../common/link-ends.ts';
import { together } from '../../common/sense-fixes.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { directionSetting, isTurned, type MotorPairs, motorPairs } from '../motor-pairs.ts';

export const rule: Rule = {
  code: 'polarity/direction-twice',
  severity: 'hint',
  title: later`A direction is reversed twice, by wiring and by setting`,
  find: findTwice,
  say: (data) =>
    say`The direction of ${word(data, 'axis')} is reversed twice: by the crossed pair ${word(data, 'a')} and ${word(data, 'b')}, and by ${word(data, 'setting')} of ${word(data, 'part')}, which is ${word(data, 'now')}. It works, but whoever swaps the drive or resets the controller will be surprised: undo both.`,
};

function* findTwice(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const pairs of motorPairs(analysis)) {
    const found = judge(analysis, pairs);
    if (found) yield found;
  }
}

function judge(analysis: MachineAnalysis, pairs: MotorPairs): Found | undefined {
  const crossed = pairs.phases.find(({ meets }) => meets === 'crossed');
  const direction = directionSetting(analysis, pairs);
  const at = crossed && endsAt(analysis, crossed.plus)[0]?.at;
  if (!crossed || !at || !isTurned(pairs) || !direction?.isTurned) return undefined;
  const { setting, part, scalar } = direction.keyed;
  const data = {
    axis: pairs.axis,
    a: crossed.plus,
    b: crossed.minus,
    setting: setting.name,
    part: part.name,
    now: scalar.text,
  };
  return withCures(
    analysis,
    { at, data, related: [{ at: scalar, note: say`${setting.name} of ${part.name} reverses it back` }] },
    () => [undoBoth(analysis, pairs)],
    (after) => motorPairs(after).every((each) => each.axis !== pairs.axis || !isTurned(each)),
  );
}

function undoBoth(analysis: MachineAnalysis, pairs: MotorPairs): Fix | undefined {
  const crossed = pairs.phases.find(({ meets }) => meets === 'crossed');
  const direction = directionSetting(analysis, pairs);
  const edits = crossed && swapTerminals(analysis, crossed.plus, crossed.minus);
  const initial = direction?.keyed.setting.initial?.text;
  if (!edits || !direction || initial === undefined) return undefined;
  const swap: Fix = {
    title: say`Exchange the wires at ${crossed.plus} and ${crossed.minus}`,
    edits,
    safe: false,
  };
  return together(swap, changeSetting(analysis, direction.keyed, initial).fix);
}
