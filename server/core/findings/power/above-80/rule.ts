import type { Rule } from '../../rule.ts';
import { loadRule } from '../load.ts';

export const rule: Rule = loadRule('power/above-80', 'high', 'A supply is loaded above 80 %');
