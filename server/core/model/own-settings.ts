import type { Problem } from '../problem.ts';
import { flatMapEach } from '../reuse/map-each.ts';
import { isNothing } from '../shape/branch.ts';
import { placeProblem } from '../shape/leaf.ts';
import { type Scalar, valueUnder } from '../syntax/node.ts';
import { readQuantity, readSpan } from '../units/index.ts';
import { checkValue } from './assigned.ts';
import type { Part } from './machine.ts';
import { expectationOf } from './setting-value.ts';
import type { Setting, Sheet } from './sheet.ts';

const kept = new WeakMap<Sheet, readonly Problem[]>();

/** Checks what a sheet says of its settings against what each is by its meaning: span, step and default. */
export function checkSettings(sheet: Sheet): readonly Problem[] {
  let problems = kept.get(sheet);
  if (!problems) {
    problems = [...sheet.settings.values()].flatMap(checkSetting);
    kept.set(sheet, problems);
  }
  return problems;
}

/** The same of the sheets that stand in a machine itself, as the facts of its parts. */
export const checkOwnSheets = flatMapEach(({ sheet, sheetName }: Part): readonly Problem[] =>
  sheet && !sheetName ? checkSettings(sheet) : [],
);

function checkSetting(setting: Setting): Problem[] {
  const expected = expectationOf(setting);
  const scalar = (key: string): Scalar | undefined => {
    const node = valueUnder(setting.fields.node, key);
    return node?.kind === 'scalar' && !isNothing(node) ? node : undefined;
  };
  const span = scalar('span');
  const step = scalar('step');
  const isQuantity = expected !== undefined && expected !== 'count';
  const inSpan = span && isQuantity ? readSpan(span.text, expected).problems : [];
  const inStep = step && isQuantity ? readQuantity(step.text, expected).problems : [];
  const { initial } = setting;
  return [
    ...(span ? inSpan.map((problem) => placeProblem(span, problem)) : []),
    ...(step ? inStep.map((problem) => placeProblem(step, problem)) : []),
    // A default outside a span that cannot be read is judged when the span can.
    ...(initial && inSpan.length === 0 && inStep.length === 0 ? checkValue(setting, initial) : []),
  ].map((problem) => ({ ...problem, data: { key: setting.name, ...problem.data } }));
}
