import { z } from 'zod';
import { choice } from './leaf.ts';
import { optional } from './section.ts';

/** The standards that a machine, or all machines of a project, keep to. */
export const conventions = z.strictObject(
  optional({
    'wire-colours': choice({
      IEC: 'Conductors by IEC 60445: protective earth green-yellow, neutral blue.',
      NFPA: 'Conductors by NFPA 79: earth green or green-yellow, direct-current control blue.',
    }).describe('Which standard the colours of the wires follow.'),
  }),
);
