import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/on-time-scant',
  'on',
  'scant',
  later`Pulses are only just long enough for the drive`,
);
