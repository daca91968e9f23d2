import {
  bits,
  drop,
  type Figures,
  inputTiming,
  leak,
  most,
  ohms,
  outputTiming,
  rest,
  transistor,
  upTo,
  yes,
} from './circuit-figures.ts';
import * as figure from './figures.ts';
import { choice } from './leaf.ts';

/** The figures of inputs, outputs, contacts and sensors, by kind. */
export const SIGNAL_FIGURES: Readonly<Record<string, Figures>> = {
  'sink-out': transistor('The voltage left across it while it is on, such as `0.3 V`.'),
  'source-out': transistor('The voltage lost across it while it is on, such as `0.5 V`.'),
  'push-pull-out': {
    drop: drop('The voltage lost across it either way, such as `0.4 V`.'),
    current: figure
      .smallCurrent('0 mA', '50 A')
      .describe('The most current that it drives either way, such as `20 mA`.'),
    ...outputTiming,
  },
  'line-out': {
    voltage: upTo('The voltage between the two, such as `2 V`.'),
    resistance: ohms('The resistance inside it, such as `30 ohm`.'),
    ...outputTiming,
  },
  'line-in': {
    voltage: figure
      .voltage('0 V', '50 V')
      .describe('The difference from which on it is sure, such as `0.2 V`.'),
    resistance: ohms('The resistance between the two, such as `120 ohm`.'),
    ...inputTiming,
  },
  contact: {
    rest,
    voltage: upTo('The most voltage that it switches, such as `30 V`.'),
    current: most('The most current that it switches, such as `5 A`.'),
    'direct-opening': yes(
      '`yes` where the actuator forces the contact open even when it has welded, as IEC 60947-5-1 asks of emergency stops.',
    ),
    delay: figure
      .duration('0 ms', '5 s')
      .describe('How long it takes to follow, such as `10 ms` for a relay.'),
  },
  changeover: {
    voltage: upTo('The most voltage that it switches, such as `250 V`.'),
    current: most('The most current that it switches, such as `5 A`.'),
    delay: figure.duration('0 ms', '5 s').describe('How long it takes to follow, such as `10 ms`.'),
  },
  'pulled-up-in': {
    pull: figure.voltage('0.5 V', '100 V').describe('The voltage to which it is pulled up, such as `24 V`.'),
    resistance: ohms('The resistance through which it is pulled up, such as `4.7 kohm`.'),
    'on-below': figure
      .voltage('0 V', '100 V')
      .describe('Below which voltage it is surely on, such as `5 V`.'),
    'off-above': figure
      .voltage('0 V', '100 V')
      .describe('Above which voltage it is surely off, such as `15 V`.'),
    ...inputTiming,
  },
  'pulled-down-in': {
    resistance: ohms('The resistance through which it is pulled down, such as `4.7 kohm`.'),
    'on-above': figure
      .voltage('0 V', '100 V')
      .describe('Above which voltage it is surely on, such as `15 V`.'),
    'off-below': figure
      .voltage('0 V', '100 V')
      .describe('Below which voltage it is surely off, such as `5 V`.'),
    ...inputTiming,
  },
  'opto-in': {
    forward: figure
      .voltage('0.5 V', '10 V')
      .describe('The voltage across the lamp while it is on, such as `1.2 V`.'),
    series: ohms('The resistance in series with the lamp inside the part, such as `270 ohm`.'),
    'on-at': figure
      .smallCurrent('10 uA', '100 mA')
      .describe('From which current on it is surely on, such as `6 mA`.'),
    'off-at': figure
      .smallCurrent('0 mA', '100 mA')
      .describe('Up to which current it is surely off, such as `1 mA`.'),
    most: figure
      .smallCurrent('0.1 mA', '500 mA')
      .describe('The most current that it bears, such as `20 mA`.'),
    'either-way': yes('`yes` where two lamps face opposite ways, so that the direction does not matter.'),
    ...inputTiming,
  },
  sensor: {
    switching: choice({
      pnp: 'It puts its plus on the output: it sources.',
      npn: 'It puts its minus on the output: it sinks.',
    }).describe('Which way its output switches.'),
    rest,
    drop: drop('The voltage lost across its output while it is on, such as `1.5 V`.'),
    voltage: figure
      .voltageSpan('0.5 V', '300 V')
      .describe('The supply voltage that it takes, such as `10..30 V`.'),
    current: figure
      .smallCurrent('0 mA', '50 A')
      .describe('The most current that its output switches, such as `200 mA`.'),
    draws: figure.smallCurrent('0 mA', '1 A').describe('The current that it draws itself, such as `10 mA`.'),
    leak,
    delay: figure.duration('0 ms', '5 s').describe('How long it takes to follow, such as `1 ms`.'),
  },
  'two-wire-sensor': {
    rest,
    drop: drop('The voltage left across it while it is on, such as `4 V`.'),
    leak,
    least: figure
      .smallCurrent('0 mA', '1 A')
      .describe('The current that must flow at least while it is on, such as `3 mA`.'),
    voltage: figure
      .voltageSpan('0.5 V', '300 V')
      .describe('The supply voltage that it takes, such as `10..30 V`.'),
    current: figure
      .smallCurrent('0 mA', '50 A')
      .describe('The most current that it switches, such as `100 mA`.'),
    delay: figure.duration('0 ms', '5 s').describe('How long it takes to follow, such as `1 ms`.'),
  },
  'analog-out': {
    span: figure
      .voltageSpan('-50 V', '50 V')
      .describe('From which voltage to which it goes, such as `0..10 V`.'),
    resistance: ohms('The resistance inside it, such as `100 ohm`.'),
    bits,
  },
  'analog-in': {
    span: figure.voltageSpan('-50 V', '50 V').describe('Which voltages it takes, such as `0..10 V`.'),
    resistance: ohms('The resistance between signal and return, such as `47 kohm`.'),
    bits,
  },
};
