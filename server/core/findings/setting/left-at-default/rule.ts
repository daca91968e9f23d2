import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { differRule } from '../differ-rule.ts';

export const rule: Rule = differRule(
  {
    code: 'setting/left-at-default',
    severity: 'error',
    title: later`A setting was left as delivered, though the machine needs another value`,
  },
  'default',
);
