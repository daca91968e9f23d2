import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/hold-scant',
  'hold',
  'scant',
  later`The direction changes only just late enough after a pulse`,
);
