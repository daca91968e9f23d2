import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Fix } from '../../problem.ts';
import type { Given } from '../../shape/fields.ts';
import { rangeOf } from '../../syntax/tree.ts';
import { formatNumber, fromSi, type Quantity } from '../../units/index.ts';
import { replaceRange } from '../common/edits.ts';

/** Writes another speed (in SI units) in the unit that was typed. */
export function changeSpeed({ tree }: MachineAnalysis, given: Given<Quantity>, si: number): Fix[] {
  const { unit } = given.value;
  const text = `${formatNumber(fromSi(si, unit))} ${unit.symbol}`;
  const range = rangeOf(tree, given.at);
  const edit = range && replaceRange(tree, range.from, range.to, text);
  return edit ? [{ title: say`Change to ${text}`, edits: [edit], safe: false }] : [];
}
