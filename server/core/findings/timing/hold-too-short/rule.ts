import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/hold-too-short',
  'hold',
  'short',
  later`The direction changes too soon after a pulse`,
);
