import type { MachineAnalysis } from '../analysis.ts';
import { sayMeaning } from '../model/meaning.ts';
import { expectationOf } from '../model/setting-value.ts';
import { completeUnit } from './complete-unit.ts';
import type { Completion } from './completion-item.ts';
import type { Cursor } from './cursor.ts';

/** The settings of a part that are not set yet. */
export function completeSettingName(analysis: MachineAnalysis, name: string, cursor: Cursor): Completion[] {
  const settings = [...(analysis.machine.parts.get(name)?.sheet?.settings.values() ?? [])];
  return settings
    .filter((setting) => !cursor.siblings.includes(setting.name))
    .map((setting, rank) => ({
      label: setting.name,
      kind: 'setting',
      detail: [setting.is, setting.axis ?? setting.circuit].filter((word) => word !== undefined).join(' '),
      documentation: sayMeaning(setting.is) ?? setting.fields.text('about')?.value ?? '',
      insert: `${setting.name}: `,
      from: cursor.from,
      rank,
    }));
}

/** The values of a setting: what the definition wants, its choices, its units. */
export function completeSetting(
  analysis: MachineAnalysis,
  name: string,
  settingName: string,
  cursor: Cursor,
): Completion[] {
  const setting = analysis.machine.parts.get(name)?.sheet?.settings.get(settingName);
  if (!setting) return [];
  const item = (label: string, detail: string, rank: number): Completion => ({
    label,
    kind: 'choice',
    detail,
    documentation: '',
    insert: label,
    from: cursor.from,
    rank,
  });
  const wanted = analysis.values.byAddress.get(`settings.${name}.${settingName}.wanted`);
  const expected = expectationOf(setting);
  const units =
    expected === undefined || expected === 'count' ? [] : completeUnit(expected.units, cursor, '');
  return [
    ...(wanted ? [item(wanted.shown, 'computed', 0)] : []),
    ...setting.choices.map((choice, index) => item(choice, '', 1 + index)),
    ...units,
  ];
}
