import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/lead-scant',
  'lead',
  'scant',
  later`The direction changes only just early enough before a pulse`,
);
