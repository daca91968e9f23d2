import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { torqueRule } from '../torque.ts';

export const rule: Rule = torqueRule(
  'motion/torque-scant',
  'scant',
  later`The motor has less than twice the torque that the wanted feed takes`,
);
