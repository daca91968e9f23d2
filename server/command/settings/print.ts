import { writeCsv } from '../../core/csv.ts';
import { say } from '../../core/language/say.ts';
import type { PartSettings, SettingRow } from '../../core/summary/settings/rows.ts';
import { valueToKeyIn } from '../../core/summary/settings/section.ts';

/** The settings sheet for a terminal: what stands to be changed is marked with a star. */
export function printSettingsText(parts: readonly PartSettings[]): string {
  return parts.map(printPart).join('\n');
}

function printPart({ part, title, rows }: PartSettings): string {
  const name = widest(rows.map(({ setting }) => setting));
  const value = widest(rows.map(valueToKeyIn));
  const lines = rows.map((row) => {
    const isOpen = row.state === 'differs' || row.state === 'not-set';
    const start = `${isOpen ? '*' : ' '} ${row.setting.padEnd(name)}  ${valueToKeyIn(row).padEnd(value)}`;
    const now = isOpen ? `${say`now ${row.now ?? say`not set`}`}; ` : '';
    const notes = [row.why || row.meaning, row.rounding].filter((text) => text !== '').join('; ');
    return `${start}  ${now}${notes}`.trimEnd();
  });
  return `${part}${title === '' ? '' : `: ${title}`}\n${lines.join('\n')}\n`;
}

function widest(texts: readonly string[]): number {
  return Math.max(0, ...texts.map(({ length }) => length));
}

/** The settings sheet as one table. */
export function printSettingsCsv(parts: readonly PartSettings[]): string {
  return writeCsv([
    ['part', 'setting', 'meaning', 'now', 'key in', 'state', 'why', 'rounding', 'source'],
    ...parts.flatMap(({ rows }) =>
      rows.map((row) => [
        row.part,
        row.setting,
        row.meaning,
        row.now ?? '',
        valueToKeyIn(row),
        row.state,
        row.why,
        row.rounding,
        row.source,
      ]),
    ),
  ]);
}

/** The settings sheet as JSON. */
export function printSettingsJson(parts: readonly PartSettings[]): string {
  return `${JSON.stringify(settingsData(parts), null, 2)}\n`;
}

/** The settings sheet as plain data, without what is not there. */
export function settingsData(parts: readonly PartSettings[]): readonly unknown[] {
  return parts.map(({ part, title, rows }) => ({ part, title, settings: rows.map(rowData) }));
}

function rowData(row: SettingRow): Readonly<Record<string, string>> {
  const { setting, meaning, now, origin, state, why, rounding, source } = row;
  const entries = { setting, meaning, now, origin, keyIn: valueToKeyIn(row), state, why, rounding, source };
  return Object.fromEntries(
    Object.entries(entries).filter(
      (entry): entry is [string, string] => entry[1] !== undefined && entry[1] !== '',
    ),
  );
}
