import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/off-time-too-short',
  'off',
  'short',
  later`Pauses between pulses are too short for the drive`,
);
