import { rescale, stepOfBits } from '../../server/core/motion/analog.ts';
import { rampTime, shaftSpeed, slip, synchronousSpeed } from '../../server/core/motion/spindle.ts';
import { checkRows } from './rows.ts';
import { RPM } from './units.ts';

const derived = 'worked out here';
const rpm = (frequency: number, poles: number) => synchronousSpeed(frequency, poles) / RPM;

checkRows(
  'Synchronous speed and slip (8.1)',
  [
    {
      id: 'N403',
      source: 'SYN',
      what: 'rpm, 2 poles, 50 Hz',
      value: rpm(50, 2),
      published: '3000',
      recomputed: 3000,
    },
    {
      id: 'N405',
      source: 'SYN',
      what: 'rpm, 4 poles, 50 Hz',
      value: rpm(50, 4),
      published: '1500',
      recomputed: 1500,
    },
    {
      id: 'N406',
      source: 'SYN',
      what: 'rpm, 4 poles, 60 Hz',
      value: rpm(60, 4),
      published: '1800',
      recomputed: 1800,
    },
    {
      id: 'N408',
      source: 'SYN',
      what: 'rpm, 8 poles, 60 Hz',
      value: rpm(60, 8),
      published: '900',
      recomputed: 900,
    },
    {
      id: 'N409',
      source: 'SYN',
      what: 'rpm, 12 poles, 50 Hz',
      value: rpm(50, 12),
      published: '500',
      recomputed: 500,
    },
    {
      id: 'N411',
      source: 'EP',
      what: 'slip, 2000 of 3600 rpm',
      value: slip(3600 * RPM, 2000 * RPM),
      published: '0.44',
      recomputed: 0.4444444,
    },
    {
      id: 'N412',
      source: 'EP',
      what: 'rpm, 4 poles, 30 Hz, slip 5 %',
      value: shaftSpeed(synchronousSpeed(30, 4), 0.05) / RPM,
      published: '855',
      recomputed: 855,
    },
    {
      id: 'N414',
      source: 'SYN',
      what: 'rpm, 2 poles, 400 Hz',
      value: rpm(400, 2),
      recomputed: 24000,
      standing: derived,
    },
  ],
  8,
);

const volts = { from: 0, to: 10 };
const hertz = { from: 0, to: 60 };
const offset = { from: 10, to: 60 };

checkRows(
  'Analog speed reference (8.2)',
  [
    {
      id: 'N415',
      source: 'AB',
      what: 'V per Hz, 10 V for 60 Hz',
      value: rescale(1, hertz, volts),
      published: '0.16667',
      recomputed: 0.1666667,
    },
    {
      id: 'N417',
      source: 'AB',
      what: 'V at 45 Hz',
      value: rescale(45, hertz, volts),
      published: '7.5',
      recomputed: 7.5,
    },
    {
      id: 'N418',
      source: 'AB',
      what: 'steps of a 10-bit input',
      value: 10 / stepOfBits(10, 10),
      published: '1024',
      recomputed: 1024,
    },
    {
      id: 'N420',
      source: 'GS3',
      what: 'percent gain from 10 to 60 Hz, of 60 Hz',
      value: ((rescale(10, volts, offset) - rescale(0, volts, offset)) / 60) * 100,
      published: '83.3',
      recomputed: 83.33333,
    },
    {
      id: 'N421',
      source: 'GS3',
      what: 'Hz at mid-scale from 10 to 60 Hz',
      value: rescale(5, volts, offset),
      published: '35',
      recomputed: 35,
    },
  ],
  5,
);

checkRows(
  'Step of an analog output (8.3)',
  [
    {
      id: 'N423',
      source: 'DIA',
      what: 'mV, 10 V, 12 bit',
      value: stepOfBits(10, 12) * 1e3,
      published: '2.44',
      recomputed: 2.441406,
    },
    {
      id: 'N425',
      source: 'DIA',
      what: 'uV, 10 V, 16 bit',
      value: stepOfBits(10, 16) * 1e6,
      published: '152.6',
      recomputed: 152.5879,
    },
    {
      id: 'N426',
      source: 'DAC2',
      what: 'V, 20 V, 16 bit',
      value: stepOfBits(20, 16),
      published: '0.00030517578125',
      recomputed: 0.0003051758,
    },
    {
      id: 'N428',
      source: 'DAC2',
      what: 'V full scale, 10 bit, steps of 10 mV',
      value: 10e-3 / stepOfBits(1, 10, 'steps'),
      published: '10.23',
      recomputed: 10.23,
    },
    {
      id: 'N429',
      source: 'DAC2',
      what: 'V full scale, 12 bit, steps of 8 mV',
      value: 8e-3 / stepOfBits(1, 12, 'steps'),
      published: '32.76',
      recomputed: 32.76,
    },
  ],
  5,
);

checkRows(
  'Ramp of a converter (8.4)',
  [
    {
      id: 'N431',
      source: 'DEL',
      what: 's, 1 to 60 Hz, 10 s for 60 Hz',
      value: rampTime(10, 1, 60, 60),
      published: '9.83',
      recomputed: 9.833333,
    },
    {
      id: 'N433',
      source: 'DEL',
      what: 's, 0 to 400 Hz, 10 s for 400 Hz',
      value: rampTime(10, 0, 400, 400),
      recomputed: 10,
      standing: derived,
    },
    {
      id: 'N434',
      source: 'EAT',
      what: 's, 0 to 250 Hz, 5 s for 50 Hz',
      value: rampTime(5, 0, 250, 50),
      recomputed: 25,
      standing: derived,
    },
  ],
  3,
);
