import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { loadRule } from '../load.ts';

export const rule: Rule = loadRule('power/overloaded', 'over', later`A supply feeds more than it gives`);
