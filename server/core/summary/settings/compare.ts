import type { MachineAnalysis } from '../../analysis.ts';
import { writeSetting } from '../../findings/common/setting-edit.ts';
import { say } from '../../language/say.ts';
import { expectationOf } from '../../model/setting-value.ts';
import type { Setting } from '../../model/sheet.ts';
import { nearestName } from '../../nearest.ts';
import { readQuantity } from '../../units/index.ts';
import type { PartSettings, SettingRow } from './rows.ts';
import { valueToKeyIn } from './section.ts';

/** A line of a list of what was keyed in. */
export interface KeyedIn {
  readonly line: number;
  readonly setting: string;
  readonly value: string;
}

/** How one line of the list stands against the definition. */
export type Compared = KeyedIn &
  (
    | {
        readonly kind: 'agrees' | 'differs';
        readonly row: SettingRow;
        readonly wanted: string;
        readonly written: string;
      }
    | { readonly kind: 'unreadable'; readonly row: SettingRow; readonly why: string }
    | { readonly kind: 'unknown'; readonly why: string }
  );

/** A list of what was keyed in against the settings sheet, and the settings that the list leaves out. */
export interface Comparison {
  readonly compared: readonly Compared[];
  readonly left: readonly SettingRow[];
}

/**
 * Compares what was keyed into parts with what the definition says. Numbers are compared up to half of the last
 * decimal that the part shows; a number without a unit is in the unit of the part.
 */
export function compareKeyedIn(
  analysis: MachineAnalysis,
  parts: readonly PartSettings[],
  list: readonly KeyedIn[],
): Comparison {
  const rows = parts.flatMap((part) => part.rows);
  const compared = list.map((keyed): Compared => {
    const row = findRow(rows, keyed.setting);
    if (typeof row === 'string') return { ...keyed, kind: 'unknown', why: row };
    const setting = analysis.machine.parts.get(row.part)?.sheet?.settings.get(row.setting);
    return setting
      ? compareRow(keyed, row, setting)
      : { ...keyed, kind: 'unknown', why: say`It has no sheet.` };
  });
  const listed = new Set(compared.flatMap((each) => ('row' in each ? [each.row] : [])));
  const only = new Set([...listed].map(({ part }) => part));
  return { compared, left: rows.filter((row) => only.has(row.part) && !listed.has(row)) };
}

/** The row that a name means, alone or with its part; else why there is none. */
function findRow(rows: readonly SettingRow[], name: string): SettingRow | string {
  const whole = rows.find((row) => `${row.part}.${row.setting}` === name);
  if (whole) return whole;
  const [first, ...others] = rows.filter((row) => row.setting === name);
  if (first && others.length === 0) return first;
  if (first) return say`Several parts have it; write ${first.part}.${name} or name the part.`;
  const near = nearestName(name, new Set(rows.map((row) => row.setting)));
  return near
    ? say`No part has a setting of this name. Did you mean ${near}?`
    : say`No part has a setting of this name.`;
}

function compareRow(keyed: KeyedIn, row: SettingRow, setting: Setting): Compared {
  const wanted = valueToKeyIn(row);
  const read = readValue(setting, keyed.value);
  const asked = readValue(setting, wanted);
  if (read === undefined)
    return { ...keyed, kind: 'unreadable', row, why: say`“${keyed.value}” is not a value that it takes.` };
  const written = typeof read === 'number' ? writeSetting(setting, read) : read;
  const isSame =
    typeof read === 'number' && typeof asked === 'number'
      ? Math.abs(read - asked) <= slackOf(setting, asked)
      : read === asked;
  return { ...keyed, kind: isSame ? 'agrees' : 'differs', row, wanted, written };
}

/** The SI value or the word that a text says; undefined where it says nothing that the setting takes. */
function readValue(setting: Setting, text: string): number | string | undefined {
  const expected = expectationOf(setting);
  if (expected === undefined) {
    const { choices } = setting;
    return choices.length === 0 || choices.includes(text) ? text : undefined;
  }
  if (expected === 'count') return /^\+?\d{1,9}$/.test(text) ? Number(text) : undefined;
  const isBare = /^[-+]?[\d.]+$/.test(text);
  return readQuantity(isBare ? `${text} ${expected.units[0] ?? ''}` : text, expected).value?.value;
}

function slackOf(setting: Setting, value: number): number {
  const decimals = setting.fields.count('decimals')?.value;
  const last = decimals === undefined ? undefined : readValue(setting, (10 ** -decimals).toFixed(decimals));
  return (typeof last === 'number' ? last / 2 : 0) + 1e-9 * Math.abs(value);
}
