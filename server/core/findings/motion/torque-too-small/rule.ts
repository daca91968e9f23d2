import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { torqueRule } from '../torque.ts';

export const rule: Rule = torqueRule(
  'motion/torque-too-small',
  'short',
  later`The motor has less torque than the wanted feed takes`,
);
