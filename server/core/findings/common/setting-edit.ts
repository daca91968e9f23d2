import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { expectationOf, readSettingQuantity } from '../../model/setting-value.ts';
import type { Keyed } from '../../model/settings.ts';
import { keyedIn } from '../../model/settings.ts';
import type { Setting } from '../../model/sheet.ts';
import type { Edit, Fix } from '../../problem.ts';
import { type Span, spanWithin } from '../../syntax/node.ts';
import { findUnit, fromSi, type Quantity, type Unit } from '../../units/index.ts';
import { addSetting } from './edits.ts';

/** A new value for a setting as it would be keyed in, and the change of the text that writes it. */
export interface SettingChange {
  readonly text: string;
  readonly fix: Fix | undefined;
}

/** Writes an SI value, a whole number or a word into a setting: unit and decimals stay as they were typed. */
export function changeSetting(
  { tree, file }: MachineAnalysis,
  keyed: Keyed,
  value: number | string,
): SettingChange {
  const { text, edit } =
    keyed.origin === 'set'
      ? replaceValue(keyed, value)
      : { text: writeSetting(keyed.setting, value), edit: undefined };
  const added = keyed.origin === 'set' ? edit : addSetting(tree, keyed.part, keyed.setting.name, text);
  const title = say`Set ${keyed.setting.name} of ${keyed.part.name} to ${text}`;
  const isHere = keyed.origin === 'default' || keyed.file === file;
  return { text, fix: added && isHere ? { title, edits: [added], safe: false } : undefined };
}

/** The setting whose value stands at this place; undefined when it is a figure of another sort. */
export function keyedAt({ machine }: MachineAnalysis, at: Span): Keyed | undefined {
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const setting of sheet.settings.values()) {
      const scalar = part.assigned.get(setting.name)?.value ?? setting.initial;
      if (scalar === at) return keyedIn(machine.file, part, setting);
    }
  }
  return undefined;
}

/** Of a quantity only the number changes, so that the unit and everything beside it stay as they are. */
function replaceValue(keyed: Keyed, value: number | string): { text: string; edit: Edit | undefined } {
  const { setting, scalar } = keyed;
  const quantity = readSettingQuantity(setting, scalar).value;
  if (typeof value === 'number' && quantity) return replaceNumber(keyed, quantity, value);
  const text = String(value);
  const isPlaced = scalar.textFrom !== undefined;
  return { text, edit: isPlaced ? { at: spanWithin(scalar, 0, scalar.text.length), text } : undefined };
}

function replaceNumber(
  { scalar }: Keyed,
  quantity: Quantity,
  si: number,
): { text: string; edit: Edit | undefined } {
  const [from, to] = quantity.numberAt;
  const typed = scalar.text.slice(from, to);
  const number = showNumber(fromSi(si, quantity.unit), typed.split('.')[1]?.length ?? 0);
  const text = `${scalar.text.slice(0, from)}${number}${scalar.text.slice(to)}`;
  return {
    text,
    edit: scalar.textFrom === undefined ? undefined : { at: spanWithin(scalar, from, to), text: number },
  };
}

/** A value as it would be keyed in: in the unit of the part and with at least its decimals. */
export function writeSetting(setting: Setting, si: number | string): string {
  if (typeof si === 'string') return si;
  const expected = expectationOf(setting);
  const unit: Unit | undefined =
    expected === undefined || expected === 'count' ? undefined : findUnit(expected.units[0] ?? '');
  if (!unit) return String(si);
  const decimals = setting.fields.count('decimals')?.value ?? 0;
  return `${showNumber(fromSi(si, unit), decimals)} ${unit.symbol}`;
}

/** A number with at least so many decimals, and as many more as it needs up to nine. */
function showNumber(number: number, decimals: number): string {
  for (let digits = Math.min(decimals, 9); digits < 9; digits++) {
    const text = number.toFixed(digits);
    if (Math.abs(Number(text) - number) <= 1e-9 * Math.abs(number)) return text;
  }
  return number.toFixed(9);
}
