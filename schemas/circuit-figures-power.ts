import { clamp, type Figures, most, ohms, upTo } from './circuit-figures.ts';
import * as figure from './figures.ts';
import { text } from './leaf.ts';

/** The figures of supplies, loads and what lies between them, by kind. */
export const POWER_FIGURES: Readonly<Record<string, Figures>> = {
  'power-in': {
    voltage: figure.voltageSpan('0.5 V', '1500 V').describe('The voltage that it takes, such as `18..32 V`.'),
    current: most('The current that it draws at most, such as `0.6 A`.'),
    inrush: most('The current that it draws for a moment when it is switched on, such as `20 A`.'),
  },
  'power-out': {
    voltage: upTo('The voltage that it gives, such as `24 V`.'),
    current: most('The current that it gives at most, such as `5 A`.'),
    trim: figure
      .voltageSpan('0.5 V', '1500 V')
      .describe('Within which voltages it can be trimmed, such as `22..28 V`.'),
    ripple: figure
      .voltage('0 V', '20 V')
      .describe('How far the voltage swings, peak to peak, such as `150 mV`.'),
  },
  'mains-in': {
    voltage: figure
      .voltageSpan('10 V', '1000 V')
      .describe('The mains voltage that it takes, such as `100..240 V`.'),
    current: most('The current that it draws from the mains at most, such as `1.3 A`.'),
  },
  earth: {},
  joined: {},
  coil: {
    voltage: upTo('The voltage that it is made for, such as `24 V`.'),
    resistance: ohms('Its resistance, such as `576 ohm`.'),
    clamp,
  },
  resistor: {
    resistance: ohms('Its resistance, such as `1.8 kohm`.'),
    power: figure.power('1 mW', '10 kW').describe('The power that it bears, such as `0.5 W`.'),
  },
  fuse: {
    rating: figure.current('10 mA', '1000 A').describe('Its rated current, such as `6.3 A`.'),
    curve: text().describe('How quickly it trips, as printed on it, such as `C`, `gG` or `T`.'),
  },
  'phase-out': {
    current: most(
      'The most current that it gives, such as `4.2 A`; the sheet’s `current-basis` says peak or rms.',
    ),
    resistance: ohms('The resistance inside it, such as `0.1 ohm`.'),
    inductance: figure
      .inductance('0.01 mH', '1 H')
      .describe('The least inductance that it works with, such as `1 mH`.'),
  },
  winding: {
    current: most('Its rated current, such as `4.2 A`; the sheet’s `current-basis` says peak or rms.'),
    resistance: ohms('Its resistance, such as `0.9 ohm`.'),
    inductance: figure.inductance('0.01 mH', '1 H').describe('Its inductance, such as `3.2 mH`.'),
  },
  'three-phase-out': {
    voltage: upTo('The voltage between two phases, such as `230 V`.'),
    current: most('The current that it gives at most, such as `7 A`.'),
  },
  'three-phase-in': {
    voltage: figure
      .voltageSpan('10 V', '1000 V')
      .describe('The voltage between two phases that it takes, such as `220 V`.'),
    current: most('The current that it draws at most, such as `6 A`.'),
  },
  screen: {},
};
