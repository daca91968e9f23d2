import type { Completion } from './completion-item.ts';
import type { Cursor } from './cursor.ts';

/** After a number, the units that fit. */
export function completeUnit(units: readonly string[], cursor: Cursor, doc: string): Completion[] {
  const number = /^([-+]?[\d.]+(?:\.\.[-+]?[\d.]+)?)\s*/.exec(cursor.typed);
  if (!number) return [];
  const from = cursor.from + number[0].length;
  return units.map((unit, index) => ({
    label: `${number[1]} ${unit}`,
    kind: 'unit',
    detail: '',
    documentation: doc,
    insert: number[0].endsWith(' ') ? unit : ` ${unit}`,
    from,
    rank: index,
  }));
}
