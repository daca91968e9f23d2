import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { differRule } from '../differ-rule.ts';

export const rule: Rule = differRule(
  {
    code: 'setting/differs',
    severity: 'warning',
    title: later`A setting differs from what the definition makes of it`,
  },
  'set',
);
