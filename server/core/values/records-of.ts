import type { Machine } from '../model/resolve.ts';
import type { Fields } from '../shape/fields.ts';

/** The newest record of each axis that has a figure: `asked` for a measured move, `backlash` for a measured play. */
export function newestRecords(machine: Machine, figure: 'asked' | 'backlash'): ReadonlyMap<string, Fields> {
  const newest = new Map<string, Fields>();
  for (const record of machine.fields.items('records')) {
    const axis = record.text('axis')?.value;
    if (axis !== undefined && record.text(figure)) newest.set(axis, record);
  }
  return newest;
}
