import { z } from 'zod';
import { terminalRef } from './leaf.ts';
import { labelled } from './section.ts';

/** The terminals in the order in which they stand on the part, in groups as they are printed there. */
export const terminals = labelled(
  z
    .array(terminalRef('part'))
    .describe('The terminals of one group, spelt as printed on the part, such as `[DC+, DC-, PE]`.'),
);
