import type { Checked } from '../../../server/protocol/private.ts';

/** Says what a check found: "2 errors, 1 warning", or "No findings". It never says that a machine is safe. */
export function describeFindings({ errors, warnings, hints }: Checked): string {
  const counts = [count(errors, 'error'), count(warnings, 'warning'), count(hints, 'hint')];
  return counts.filter((text) => text !== '').join(', ') || 'No findings';
}

function count(number: number, noun: string): string {
  if (number === 0) return '';
  return number === 1 ? `1 ${noun}` : `${number} ${noun}s`;
}
