import { z } from 'zod';
import { move, perTravel } from './figures.ts';
import { date, nameOf } from './leaf.ts';
import { optional } from './section.ts';

const distance = move('-20 m', '20 m');
const uncertainty = move('0 mm', '50 mm');

const record = z.strictObject({
  date: date().describe('The day of the measurement, such as `2026-03-02`.'),
  axis: nameOf('axis').describe('The axis that was measured.'),
  asked: distance.describe('The move that was asked for, such as `500 mm`.'),
  seen: distance.describe('The move that was measured, such as `499.62 mm`.'),
  ...optional({
    within: uncertainty.describe(
      'How far off the measurement itself may be, such as `0.05 mm`. A correction smaller than that means nothing.',
    ),
    scale: perTravel('0.001 /mm', '1000000 /mm').describe(
      'The pulses per length that were keyed in when it was measured, such as `160 /mm`. Left out, they are those that are keyed in now.',
    ),
  }),
});

/** What was measured, newest last. */
export const records = z.array(record.describe('One measured move.'));
