import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/on-time-too-short',
  'on',
  'short',
  later`Pulses are too short for the drive`,
);
