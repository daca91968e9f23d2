import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { findReadings, sayReadings } from '../readings.ts';

/** Slip makes no more than the one, and more than the other has a cause of its own (common practice, no source). */
const SLIP = 0.05;
const MUCH = 0.1;

export const rule: Rule = {
  code: 'spindle/correction',
  severity: 'hint',
  title: later`Measured speeds ask for another top speed`,
  find: (analysis) => findReadings(analysis, SLIP, MUCH),
  say: sayReadings,
};
