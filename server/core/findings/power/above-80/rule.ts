import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { loadRule } from '../load.ts';

export const rule: Rule = loadRule('power/above-80', 'high', later`A supply is loaded above 80 %`);
