import { z } from 'zod';
import { angularSpeed, move } from './figures.ts';
import { nameOf } from './leaf.ts';
import { optional } from './section.ts';

export const handwheel = z.strictObject({
  part: nameOf('part').describe('The handwheel, by its name in `parts`.'),
  ...optional({
    step: move('0.01 um', '10 mm').describe(
      'How far one detent moves the axis at the smallest step, such as `0.001 mm`.',
    ),
    spin: angularSpeed('0.01 rev/s', '20 rev/s').describe(
      'How fast you turn the wheel when you are in a hurry, such as `2 rev/s`.',
    ),
  }),
});
