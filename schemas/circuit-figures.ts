import type { z } from 'zod';
import * as figure from './figures.ts';
import { choice, count, yesNo } from './leaf.ts';

/** The figures that a circuit of some kind may have, by key. */
export type Figures = Readonly<Record<string, z.ZodType>>;

/* What several kinds share follows. */

export const yes = (doc: string) => yesNo().describe(doc);
export const ohms = (doc: string) => figure.resistance('0 ohm', '100 Mohm').describe(doc);
export const bits = count(1, 32).describe('In how many bits it is resolved, such as `10` for 1024 steps.');
export const drop = (doc: string) => figure.voltage('0 V', '20 V').describe(doc);
export const most = (doc: string) => figure.current('0 A', '1000 A').describe(doc);
export const upTo = (doc: string) => figure.voltage('0.5 V', '1500 V').describe(doc);
export const leak = figure
  .smallCurrent('0 mA', '50 mA')
  .describe('The current that still flows while it is off, such as `0.1 mA`.');
export const rest = choice({
  open: 'It conducts only while it is operated.',
  closed: 'It conducts until it is operated; a broken wire looks as if it were operated.',
}).describe('Whether it is open or closed while nothing operates it.');
export const clamp = yes(
  '`yes` where a diode or the like takes up the voltage that a coil gives when it is switched off.',
);

export const outputTiming = {
  'top-rate': figure
    .pulseRate('1 Hz', '50 MHz')
    .describe('The highest rate of pulses that it gives, such as `200 kHz`.'),
  'on-time': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long it stays on for one pulse, such as `2.5 us`.'),
  'off-time': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long it stays off between two pulses, such as `2.5 us`.'),
  lead: figure
    .signalTime('10 ns', '1 s')
    .describe(
      'For a direction output: how long it is steady before the pulse, where no setting says so, such as `5 us`.',
    ),
  hold: figure
    .signalTime('10 ns', '1 s')
    .describe('For a direction output: how long it stays steady after the pulse, such as `5 us`.'),
};

export const inputTiming = {
  'top-rate': figure
    .pulseRate('1 Hz', '50 MHz')
    .describe('The highest rate of pulses that it follows, such as `200 kHz`.'),
  'least-on': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long a pulse must at least be on, such as `2.5 us`.'),
  'least-off': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long it must at least be off between two pulses, such as `2.5 us`.'),
  lead: figure
    .signalTime('50 ns', '1 ms')
    .describe('For a direction input: how long before the pulse it must be steady, such as `5 us`.'),
  hold: figure
    .signalTime('0 us', '1 ms')
    .describe('For a direction input: how long after the pulse it must stay steady, such as `5 us`.'),
  delay: figure
    .signalTime('0 us', '5 s')
    .describe('How long it takes to notice a change, such as `10 ms` for a debounced input.'),
  'on-delay': figure
    .signalTime('0 us', '5 s')
    .describe('How long it takes to turn on, where that differs from turning off, such as `0.5 us`.'),
  'off-delay': figure
    .signalTime('0 us', '5 s')
    .describe('How long it takes to turn off, where that differs from turning on, such as `2 us`.'),
};

export const transistor = (falls: string) => ({
  drop: drop(falls),
  current: figure
    .smallCurrent('0 mA', '50 A')
    .describe('The most current that it switches, such as `50 mA`.'),
  leak,
  clamp,
  ...outputTiming,
});
