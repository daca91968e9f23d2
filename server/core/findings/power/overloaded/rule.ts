import type { Rule } from '../../rule.ts';
import { loadRule } from '../load.ts';

export const rule: Rule = loadRule('power/overloaded', 'over', 'A supply feeds more than it gives');
