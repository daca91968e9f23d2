import type { MachineAnalysis } from '../../analysis.ts';
import { table } from '../headline.ts';
import { partId, settingId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { h, type View, type ViewElement } from '../view.ts';
import { listSettings, type PartSettings, type SettingRow } from './rows.ts';

const HEADS = ['Done', 'Setting', 'Meaning', 'Now', 'Key in', 'Why', 'Rounding', 'Source'];

/** The settings sheet, one table a part, with a box for each setting. */
export function settingsItems(analysis: MachineAnalysis): SummaryItem[] {
  const parts = listSettings(analysis);
  if (parts.length === 0) return [item('settings', nothing())];
  return parts.map((part) => item(`settings:${part.part}`, partView(part)));
}

function item(id: string, view: ViewElement): SummaryItem {
  return { id, section: 'settings', kind: 'view', view };
}

function nothing(): ViewElement {
  return h('p', { class: 'muted' }, 'No part has anything to set yet.');
}

function partView({ part, title, rows }: PartSettings): ViewElement {
  const open = rows.filter(({ state }) => state === 'differs' || state === 'not-set').length;
  return h(
    'article',
    { class: 'settings' },
    h('h3', { 'data-id': partId(part), tabindex: 0 }, part),
    h('p', { class: 'muted' }, `${title === '' ? '' : `${title}. `}${sayOpen(open)}`),
    table(HEADS, rows.map(rowView)),
  );
}

function sayOpen(open: number): string {
  if (open === 0) return 'Everything that follows from the definition is set so.';
  return `${open} ${open === 1 ? 'setting has' : 'settings have'} to be changed in the definition.`;
}

function rowView(row: SettingRow): ViewElement {
  const { part, setting, meaning, now, wanted, state, why, rounding, source } = row;
  const value = valueToKeyIn(row);
  const mark = state === 'differs' || state === 'not-set' ? h('strong', {}, value) : value;
  return h(
    'tr',
    { 'data-id': settingId(part, setting), tabindex: 0, class: `setting ${state}` },
    h('td', {}, value === '' ? undefined : box(part, setting, value)),
    h('th', { scope: 'row' }, setting),
    h('td', {}, meaning),
    h('td', { class: 'number' }, sayNow(row)),
    h('td', { class: 'number' }, mark),
    cell(why),
    cell(rounding),
    cell(wanted === undefined && now === undefined ? '' : source),
  );
}

/** What is to be keyed into the part: what follows from the definition, else what the definition says. */
export function valueToKeyIn({ now, wanted }: SettingRow): string {
  return wanted ?? now ?? '';
}

function sayNow({ now, origin }: SettingRow): string {
  if (now === undefined) return 'not set';
  return origin === 'default' ? `${now} (as delivered)` : now;
}

function cell(text: string): View {
  return h('td', { class: 'muted' }, text === '' ? '–' : text);
}

/** A tick belongs to the value that was keyed in: another value is a new box. */
function box(part: string, setting: string, value: string): ViewElement {
  return h('button', {
    role: 'checkbox',
    'aria-checked': 'false',
    'data-tick': `${settingId(part, setting)}=${value}`,
    'aria-label': `${setting} of ${part} is keyed in as ${value}`,
  });
}
