import type { Machine } from '../model/resolve.ts';
import { pick } from '../pick.ts';
import type { Fields } from '../shape/fields.ts';
import type { Recipe } from './derived.ts';

/** What is shown in inches on an axis that is written in inches. */
const INCHES: Readonly<Record<string, string>> = {
  mm: 'in',
  um: 'in',
  'mm/min': 'in/min',
  '/mm': '/in',
};

/** The figures of an axis by which it is told in what it is written; the first that is there decides. */
const TELLING = ['travel', 'feed', 'overtravel'] as const;

const IN_INCHES = /\d *(?:in|ft|mil)(?:\/min|\/s)?$/;

/**
 * In which unit people see a value: that of the axis or handwheel which it belongs to. An axis whose travel is written
 * in inches has its feeds, moves and scales in inches; the value itself stays in the unit of its address.
 */
export function shownUnits(machine: Machine): (recipe: Recipe) => string | undefined {
  const inches = new Map<string, boolean>();
  for (const axis of machine.axes.values()) inches.set(`axes.${axis.name}`, isInInches(axis.fields, TELLING));
  const handwheel = isInInches(machine.fields.child('handwheel'), ['step']);
  return ({ address, unit }) => {
    const [section = '', owner = ''] = address.split('.', 2);
    const is = section === 'axes' ? inches.get(`axes.${owner}`) : section === 'handwheel' && handwheel;
    return is === true ? pick(INCHES, unit) : undefined;
  };
}

function isInInches(fields: Fields, keys: readonly string[]): boolean {
  const [text] = keys.flatMap((key) => fields.quantity(key)?.text ?? []);
  return text !== undefined && IN_INCHES.test(text);
}
