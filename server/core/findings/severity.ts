import { say } from '../language/say.ts';
import type { Severity } from './rule.ts';

/** How grave a finding is, as lists say it. */
export function sayGravity(severity: Severity): string {
  if (severity === 'error') return say`error`;
  return severity === 'warning' ? say`warning` : say`hint`;
}
