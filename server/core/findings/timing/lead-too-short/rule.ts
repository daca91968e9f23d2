import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { marginRule } from '../margin-rule.ts';

export const rule: Rule = marginRule(
  'timing/lead-too-short',
  'lead',
  'short',
  later`The direction changes too late before a pulse`,
);
