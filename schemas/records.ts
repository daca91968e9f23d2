import { z } from 'zod';
import { move, perTravel } from './figures.ts';
import { date, nameOf, text } from './leaf.ts';
import { optional } from './section.ts';

const distance = move('-20 m', '20 m');
const uncertainty = move('0 mm', '50 mm');

const moved = z.strictObject({
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

const played = z.strictObject({
  date: date().describe('The day of the measurement, such as `2026-03-02`.'),
  axis: nameOf('axis').describe('The axis that was measured.'),
  backlash: move('-5 mm', '5 mm').describe(
    'The play that was measured when the axis turned round, such as `0.04 mm`, beyond what the controller made up for.',
  ),
  ...optional({
    within: uncertainty.describe('How far off the measurement itself may be, such as `0.01 mm`.'),
    setting: move('0 mm', '5 mm').describe(
      'The backlash that was keyed in when it was measured, such as `0.02 mm`. Left out, it is the one that is keyed in now.',
    ),
  }),
});

const tried = z.strictObject({
  date: date().describe('The day on which the step was done, such as `2026-03-02`.'),
  step: text().describe('The step of the commissioning list, such as `supply:logic-psu`.'),
  ...optional({
    expected: text().describe(
      'What the list expected then, such as `24 V`. When it expects something else now, the step is left to be done again.',
    ),
    seen: text().describe('What was seen, such as `24.1 V` or `as expected`.'),
  }),
});

/** What was measured and tried, newest last. */
export const records = z.array(
  z.union([
    moved.describe('One measured move.'),
    played.describe('One measured play.'),
    tried.describe('One step of the commissioning list that was done.'),
  ]),
);
