import { say } from '../language/say.ts';
import { scanNumber, shorten } from './number.ts';
import { type Reading, refuse } from './reading.ts';

/** A ratio such as `90:1`: motor turns to driven turns. Both sides are greater than zero. */
export interface Ratio {
  readonly left: number;
  readonly right: number;
}

/** Reads a ratio such as `90:1` or `2.5 : 1`. A lone number is asked to be written out. */
export function readRatio(text: string): Reading<Ratio> {
  const whole = text.trim();
  const from = text.length - text.trimStart().length;
  const at: [number, number] = [from, from + whole.length];
  const data = { typed: shorten(whole), expected: say`a ratio such as 90:1`, units: '' };
  const parts = text.split(':');
  const sides = parts.map((part) => scanNumber(part));
  const [left, right] = sides.map(({ value }, index) =>
    value !== undefined && parts[index]?.slice(value.at[1]).trim() === '' ? value.value : undefined,
  );
  if (left === undefined || (parts.length === 2 && right === undefined) || parts.length > 2) {
    return refuse('unit/not-a-quantity', at, { ...data, reason: 'no-ratio' });
  }
  if (right === undefined) {
    const repair = { from: at[1], to: at[1], text: ':1', label: `${whole}:1` };
    return refuse('unit/not-a-quantity', at, { ...data, reason: 'half-ratio' }, left > 0 ? [repair] : []);
  }
  const value = left / right;
  if (left > 0 && right > 0 && value > 0 && Number.isFinite(value))
    return { value: { left, right }, problems: [] };
  return refuse('unit/not-a-quantity', at, { ...data, reason: 'not-positive' });
}
