import type { Machine } from '../model/resolve.ts';
import { pick } from '../pick.ts';
import { fact } from '../reuse/fact.ts';
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
  const inches = sectionsInInches(machine);
  if (inches.length === 0) return () => undefined;
  return ({ address, unit }) =>
    inches.some((section) => address.startsWith(section)) ? pick(INCHES, unit) : undefined;
}

/** How the addresses begin of what is written in inches. */
const sectionsInInches = fact('machine', (machine: Machine): readonly string[] => [
  ...[...machine.axes.values()]
    .filter(({ fields }) => isInInches(fields, TELLING))
    .map(({ name }) => `axes.${name}.`),
  ...(isInInches(machine.fields.child('handwheel'), ['step']) ? ['handwheel.'] : []),
]);

function isInInches(fields: Fields, keys: readonly string[]): boolean {
  const [text] = keys.flatMap((key) => fields.quantity(key)?.text ?? []);
  return text !== undefined && IN_INCHES.test(text);
}
