import { expect, it } from 'vitest';
import { type Differences, smallMachine, valueAt, valuesOf } from '../core/values/small-machine.ts';
import { checkRows, setAside } from './rows.ts';

// The same rows as of the formulas, written down as machines, analysed, and read back by the address of each value.

const memory = 'from memory' as const;
const here = 'worked out here' as const;
const practice = 'common practice, no source' as const;

interface Train {
  /** Degrees. */
  readonly step?: number;
  readonly microsteps?: number;
  /** `screw: { lead: 5 mm }` and the like. */
  readonly carrier?: string;
  readonly feed?: string;
  readonly letter?: string;
}

function machine({ step = 1.8, microsteps = 1, carrier = '', feed = '', letter = 'X' }: Train): Differences {
  const figures = [
    `travel: ${letter === 'A' ? '360 deg' : '600 mm'}`,
    carrier,
    feed === '' ? '' : `feed: ${feed}`,
  ];
  return {
    letter,
    axis: figures.filter((figure) => figure !== '').join(', '),
    motorFacts: `step-angle: ${step} deg`,
    driveSet: `microsteps: ${microsteps}`,
  };
}

const at = (of: Differences, address: string): number => valueAt(valuesOf(smallMachine(of)), address).value;
const read = (train: Train, name: string): number =>
  at(machine(train), `axes.${train.letter ?? 'X'}.${name}`);

const perTurn = (train: Train) => read(train, 'pulses-per-turn');
const perLength = (train: Train) => read(train, 'pulses-per-length');
const travelPerTurn = (train: Train) => perTurn(train) / perLength(train);
const motorSpeed = (train: Train) => read(train, 'motor-speed');
/** Pulses a second at the wanted feed. */
const pulseRate = (train: Train) => (perTurn(train) * motorSpeed(train)) / 60;

const groover = 'screw: { lead: 7.5 mm }';
const threads = `screw: { lead: ${10 / 2.4} mm }, gearing: 5:1`;
const XL = 'belt: { pitch: 0.2 in, teeth: 50 }';
const GT2 = 'belt: { pitch: 2 mm, teeth: 20 }';

checkRows(
  'Machines: steps and pulses in a turn (4.1)',
  [
    { id: 'N168', source: 'UCP', what: 'full steps of 1.8 deg', value: perTurn({}), published: '200' },
    {
      id: 'N173',
      source: 'MEM',
      what: 'full steps of 7.5 deg',
      value: perTurn({ step: 7.5 }),
      published: '48',
      standing: memory,
    },
    {
      id: 'N174',
      source: 'UCP',
      what: '1.8 deg, 16 microsteps',
      value: perTurn({ microsteps: 16 }),
      published: '3200',
    },
    {
      id: 'N176',
      source: 'UCP',
      what: '0.9 deg, 32 microsteps',
      value: perTurn({ step: 0.9, microsteps: 32 }),
      published: '12800',
    },
    {
      id: 'N177',
      source: 'MD',
      what: '1.8 deg, 256 microsteps',
      value: perTurn({ microsteps: 256 }),
      published: '51200',
    },
    {
      id: 'N179',
      source: 'UCP',
      what: 'Hz at 200 rpm',
      value: pulseRate({ letter: 'A', feed: '200 rpm' }),
      published: '667',
      recomputed: 666.6667,
    },
  ],
  6,
);

checkRows(
  'Machines: positioning by a lead screw (4.7)',
  [
    {
      id: 'N216',
      source: 'GRO',
      what: 'pulses for 120 mm',
      value: 120 * perLength({ carrier: groover }),
      recomputed: 3200,
      standing: here,
    },
    {
      id: 'N218',
      source: 'GRO',
      what: 'rpm at 300 mm/min',
      value: motorSpeed({ carrier: groover, feed: '300 mm/min' }),
      recomputed: 40,
      standing: here,
    },
    {
      id: 'N219',
      source: 'GRO',
      what: 'pulses for 25 cm, 5:1',
      value: 250 * perLength({ carrier: threads }),
      recomputed: 60000,
      standing: here,
    },
    {
      id: 'N221',
      source: 'GRO',
      what: 'Hz at 75 cm/min, 5:1',
      value: pulseRate({ carrier: threads, feed: '750 mm/min' }),
      recomputed: 3000,
      standing: here,
    },
    {
      id: 'N222',
      source: 'GRO',
      what: 'pulses for 10 in, 5 threads an inch, 9:1',
      value: 254 * perLength({ step: 3.6, carrier: 'screw: { lead: 0.2 in }, gearing: 9:1' }),
      recomputed: 45000,
      standing: here,
    },
    {
      id: 'N228',
      source: 'MIT',
      what: 'r/min of the motor, 16 mm, 5:8',
      value: motorSpeed({ carrier: 'screw: { lead: 16 mm }, gearing: 8:5', feed: '30000 mm/min' }),
      published: '3000',
    },
    {
      id: 'N230',
      source: 'YA',
      what: 'min-1 of the screw',
      value: motorSpeed({ carrier: 'screw: { lead: 10 mm }', feed: '15 m/min' }),
      published: '1500',
    },
    {
      id: 'N231',
      source: 'YA',
      what: 'min-1 of the motor, 1/2',
      value: motorSpeed({ carrier: 'screw: { lead: 10 mm }, gearing: 2:1', feed: '15 m/min' }),
      published: '3000',
    },
  ],
  8,
);

checkRows(
  'Machines: travel in a turn and pulses per length (5.7)',
  [
    {
      id: 'N304',
      source: 'RACK',
      what: 'mm, module 2, 20 teeth',
      value: travelPerTurn({ carrier: 'rack: { module: 2 mm, teeth: 20 }' }),
      published: '125.66',
      recomputed: 125.6637,
    },
    {
      id: 'N306',
      source: 'BELT',
      what: 'in, 0.2 in, 50 teeth',
      value: travelPerTurn({ carrier: XL }) / 25.4,
      published: '10',
    },
    {
      id: 'N307',
      source: 'BELT',
      what: '/in, 16 microsteps',
      value: 25.4 * perLength({ microsteps: 16, carrier: XL }),
      published: '320',
    },
    {
      id: 'N309',
      source: 'BELT',
      what: '/in, 32 microsteps',
      value: 25.4 * perLength({ microsteps: 32, carrier: XL }),
      published: '640',
    },
    {
      id: 'N310',
      source: 'BELT',
      what: '/mm, 2 microsteps',
      value: perLength({ microsteps: 2, carrier: GT2 }),
      published: '10',
    },
    {
      id: 'N312',
      source: 'GT2',
      what: 'mm, 2 mm, 20 teeth',
      value: travelPerTurn({ carrier: GT2 }),
      recomputed: 40,
      standing: here,
    },
    {
      id: 'N313',
      source: 'GT2',
      what: 'mm, pitch diameter of the pulley',
      value: travelPerTurn({ carrier: GT2 }) / Math.PI,
      recomputed: 12.732395,
      standing: here,
    },
    {
      id: 'N315',
      source: 'MEM',
      what: '/mm, 5 threads an inch, 10 microsteps',
      value: perLength({ microsteps: 10, carrier: 'screw: { lead: 5.08 mm }' }),
      recomputed: 393.7008,
      standing: practice,
    },
    {
      id: 'N316',
      source: 'MEM',
      what: '/mm, 8 microsteps, 40 mm a turn',
      value: perLength({ microsteps: 8, carrier: GT2 }),
      recomputed: 40,
      standing: practice,
    },
    {
      id: 'N318',
      source: 'ROTT',
      what: 'deg for a turn of a 40:1 worm',
      value: travelPerTurn({ letter: 'A', carrier: 'worm: 40:1' }),
      published: '9',
    },
    {
      id: 'N319',
      source: 'ROTT',
      what: 'turns of a 90:1 worm for 90 deg',
      value: 90 / travelPerTurn({ letter: 'A', carrier: 'worm: 90:1' }),
      published: '22.5',
    },
  ],
  11,
);

const kilohertz = (time: string, rate = '10 MHz') =>
  at(
    {
      pulse: `top-rate: ${rate}`,
      driveInputs: `pulse: { opto-in: [P+, P-], does: pulse, least-on: ${time}, least-off: ${time} }`,
    },
    'axes.X.pulse-rate-limit',
  ) / 1000;

checkRows(
  'Machines: pulse timing (7.1)',
  [
    {
      id: 'N379',
      source: 'IMD80',
      what: 'us, period at 80 kHz',
      value: 1000 / kilohertz('1 us', '80 kHz'),
      published: '12.5',
    },
    {
      id: 'N380',
      source: 'MEM',
      what: 'kHz, 2.5 us on and off',
      value: kilohertz('2.5 us'),
      recomputed: 200,
      standing: practice,
    },
    {
      id: 'N382',
      source: 'MEM',
      what: 'kHz, 1 us on and off',
      value: kilohertz('1 us'),
      recomputed: 500,
      standing: practice,
    },
    {
      id: 'N383',
      source: 'MEM',
      what: 'kHz, 0.5 us on and off',
      value: kilohertz('0.5 us'),
      recomputed: 1000,
      standing: practice,
    },
  ],
  4,
);

const drift = (carrier: string, stored: string, travel: string): number =>
  at(
    {
      ...machine({ microsteps: 16, carrier }),
      axis: `travel: ${travel}, ${carrier}`,
      panelSettings: `scale: { is: pulses-per-length, axis: X, unit: /mm, decimals: 2, default: ${stored} /mm }`,
    },
    'axes.X.rounding-drift',
  ) / 1000;

checkRows(
  'Machines: rounding of the pulses per length (10.2)',
  [
    {
      id: 'N467',
      source: 'MEM',
      what: 'mm over 1000 mm, rack',
      value: drift('rack: { module: 1 mm, teeth: 20 }', '50.93', '1000 mm'),
      recomputed: 0.008211546,
      standing: practice,
    },
    {
      id: 'N469',
      source: 'MEM',
      what: 'mm over 600 mm, 5 threads an inch',
      value: drift('screw: { lead: 0.2 in }', '630', '600 mm'),
      recomputed: 0.075,
      standing: practice,
    },
  ],
  2,
);

checkRows(
  'Machines: speed limits (10.3)',
  [
    {
      id: 'N472',
      source: 'MEM',
      what: 'mm/min at 100 kHz, 640 pulses per mm',
      value: read({ microsteps: 16, carrier: 'screw: { lead: 5 mm }' }, 'feed-limit.pulse-rate'),
      recomputed: 9375,
      standing: practice,
    },
    {
      id: 'N474',
      source: 'MEM',
      what: 'rpm at 3750 mm/min',
      value: motorSpeed({ carrier: 'screw: { lead: 5 mm }', feed: '3750 mm/min' }),
      recomputed: 750,
      standing: practice,
    },
  ],
  2,
);

it.each([
  ['0.25 in', '251.969 /mm'],
  ['0.125 in', '503.937 /mm'],
])('a lead of %s at 1,600 pulses a turn makes %s (common practice, no source)', (lead, shown) => {
  const values = valuesOf(smallMachine(machine({ microsteps: 8, carrier: `screw: { lead: ${lead} }` })));
  expect(valueAt(values, 'axes.X.pulses-per-turn').value).toBe(1600);
  expect(valueAt(values, 'axes.X.pulses-per-length').shown).toBe(shown);
});

setAside({
  N170: 'the flange of a motor size is no value of a machine',
  N171: 'the flange of a motor size is no value of a machine',
  N224: 'asks for the steps that a resolution needs, which no value answers',
  N225: 'an encoder on the screw is no part of a machine here',
  N227: 'asks for the pulses that a resolution needs, which no value answers',
  N374: 'a figure of one product, nothing to compute',
  N376: 'a figure of one product, nothing to compute',
  N377: 'a figure of one product, nothing to compute',
  N470: 'increments per tooth of a wheel are no value of a machine',
});
