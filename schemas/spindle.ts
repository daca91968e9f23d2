import { z } from 'zod';
import { angularSpeed } from './figures.ts';
import { nameOf } from './leaf.ts';
import { optional } from './section.ts';

const speed = angularSpeed('0 rpm', '500000 rpm');

const reading = z.strictObject({
  asked: speed.describe('The speed that the program asked for, such as `9000 rpm`.'),
  seen: speed.describe('The speed that was measured, such as `8420 rpm`.'),
  ...optional({
    'top-speed': speed.describe(
      'The top speed that was keyed into the controller when it was measured, such as `18000 rpm`. Left out, it is the one that is keyed in now.',
    ),
  }),
});

export const spindle = z.strictObject(
  optional({
    converter: nameOf('part').describe(
      'The frequency converter that feeds the spindle, by its name in `parts`.',
    ),
    motor: nameOf('part').describe('The spindle’s motor, by its name in `parts`.'),
    'top-speed': speed.describe('The fastest speed that you want to run, such as `18000 rpm`.'),
    'least-speed': speed.describe('The slowest speed at which it may cut, such as `6000 rpm`.'),
    readings: z
      .array(reading.describe('One speed, asked for and measured.'))
      .describe(
        'Speeds that were measured. From them the error and the setting that corrects it are worked out.',
      ),
  }),
);
