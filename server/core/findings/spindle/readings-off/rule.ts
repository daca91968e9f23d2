import { later } from '../../../language/say.ts';
import type { Rule } from '../../rule.ts';
import { findReadings, sayReadings } from '../readings.ts';

/** More than slip and a meter's own error can make (common practice, no source). */
const MUCH = 0.1;

export const rule: Rule = {
  code: 'spindle/readings-off',
  severity: 'warning',
  title: later`The spindle turns at another speed than was asked for`,
  find: (analysis) => findReadings(analysis, MUCH, Number.POSITIVE_INFINITY),
  say: sayReadings,
};
