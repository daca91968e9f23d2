import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/off-time-scant',
  'off',
  'scant',
  later`Pauses between pulses are only just long enough for the drive`,
);
