import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { partId, settingId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { NOTHING, type Row, type Table } from '../tables/table.ts';
import { h, type ViewElement } from '../view.ts';
import { listSettings, type PartSettings, type SettingRow } from './rows.ts';

const columns = (): Table['columns'] => [
  { title: say`Setting` },
  { title: say`Meaning` },
  { title: say`Now`, number: true },
  { title: say`Key in`, number: true },
  { title: say`Why` },
  { title: say`Rounding` },
  { title: say`Source` },
];

/** The settings sheet, one table a part, with a box for each setting. */
export function settingsItems(analysis: MachineAnalysis): SummaryItem[] {
  const parts = listSettings(analysis);
  if (parts.length === 0) return [{ id: 'settings', section: 'settings', kind: 'view', view: nothing() }];
  return parts.map((part) => ({
    id: `settings:${part.part}`,
    section: 'settings',
    kind: 'table',
    table: partTable(part),
  }));
}

function nothing(): ViewElement {
  return h('p', { class: 'muted' }, say`No part has anything to set yet.`);
}

function partTable({ part, title, rows }: PartSettings): Table {
  const open = rows.filter(({ state }) => state === 'differs' || state === 'not-set').length;
  return {
    title: part,
    titleId: partId(part),
    about: `${title === '' ? '' : `${title}. `}${sayOpen(open)}`,
    columns: columns(),
    rows: rows.map(rowOf),
  };
}

function sayOpen(open: number): string {
  if (open === 0) return say`Everything that follows from the definition is set so.`;
  return say`${open} ${open === 1 ? 'setting has' : 'settings have'} to be changed in the definition.`;
}

/** What is not set as it should be stands out by its weight and a sign. */
function rowOf(row: SettingRow): Row {
  const { part, setting, meaning, now, wanted, state, why, rounding, source } = row;
  const value = valueToKeyIn(row);
  const isOpen = state === 'differs' || state === 'not-set';
  return {
    id: settingId(part, setting),
    // A tick belongs to the value that was keyed in.
    ...(value !== '' && {
      tick: {
        id: `${settingId(part, setting)}=${value}`,
        says: say`${setting} of ${part} is keyed in as ${value}`,
      },
    }),
    cells: [
      setting,
      meaning,
      sayNow(row),
      isOpen ? { text: value, view: h('strong', { class: 'open' }, value) } : value,
      why === '' ? NOTHING : why,
      rounding === '' ? NOTHING : rounding,
      (wanted === undefined && now === undefined) || source === '' ? NOTHING : source,
    ],
  };
}

/** What is to be keyed into the part: what follows from the definition, else what the definition says. */
export function valueToKeyIn({ now, wanted }: SettingRow): string {
  return wanted ?? now ?? '';
}

function sayNow({ now, origin }: SettingRow): string {
  if (now === undefined) return say`not set`;
  return origin === 'default' ? say`${now} (as delivered)` : now;
}
