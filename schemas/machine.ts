import { z } from 'zod';
import { axes } from './axes.ts';
import { conventions } from './conventions.ts';
import { handwheel } from './handwheel.ts';
import { count, mainsText, text } from './leaf.ts';
import { parts } from './parts.ts';
import { records } from './records.ts';
import { optional } from './section.ts';
import { format } from './sheet.ts';
import { spindle } from './spindle.ts';
import { wiring } from './wiring.ts';

/** A machine: its parts, how they are wired, and how it moves. */
export const machineSchema = z.strictObject({
  machine: text().describe('The name of the machine, such as `Half-hull router`.'),
  ...optional({
    format,
    revision: count(0).describe(
      'The number of this version of the machine. Count it up when the wiring changes.',
    ),
    about: text().describe('What the machine is and what it is for, in a sentence or two.'),
    mains: mainsText().describe(
      'The supply network, `230 V 50 Hz` or on three phases `3 x 400 V 50 Hz`. It is also a part named `mains` with the terminals `L`, `N` and `PE` (`L1 L2 L3 N PE` on three phases).',
    ),
    conventions: conventions.describe('The standards that this machine keeps to.'),
    parts: parts.describe(
      'Every physical part of the machine, by a name of your own without spaces or dots.',
    ),
    wiring: wiring.describe(
      'Every link from terminal to terminal: alone, with its wire, or in a cable with others.',
    ),
    axes: axes.describe('The axes by their letters of ISO 841: X Y Z, U V W are linear and A B C rotary.'),
    spindle: spindle.describe('The spindle and the frequency converter that feeds it.'),
    handwheel: handwheel.describe('The handwheel with which the axes are moved by hand.'),
    records: records.describe('What was measured and tried on the machine, newest last.'),
  }),
});
