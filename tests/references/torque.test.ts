import { pulseRateAtFeed } from '../../server/core/motion/feed.ts';
import { barInertia, discInertia, inertiaAtMotor, massInertia } from '../../server/core/motion/inertia.ts';
import {
  accelerationTorque,
  loadTorque,
  microstepTorque,
  shaftPower,
  thrust,
} from '../../server/core/motion/torque.ts';
import {
  cornerSpeed,
  currentShare,
  leastStepTime,
  timeConstant,
  timeToCurrentShare,
  usualSupplyCurrent,
  usualTopVoltage,
} from '../../server/core/motion/winding.ts';
import { checkRows } from './rows.ts';
import { DEG, GRAVITY, INCH, LBF, MM, OUNCE_INCH, POUND, RPM, TURN } from './units.ts';

const memory = 'from memory';
const derived = 'worked out here';
const practice = 'common practice, no source';

const share = (microsteps: number) => microstepTorque(100, microsteps);

checkRows(
  'Torque of a microstep (4.2), percent',
  [
    {
      id: 'N180',
      source: 'MD',
      what: 'full step',
      value: share(1),
      published: '100',
      recomputed: 100,
      standing: memory,
    },
    {
      id: 'N182',
      source: 'MD',
      what: '4 microsteps',
      value: share(4),
      published: '38.27',
      recomputed: 38.26834,
    },
    {
      id: 'N183',
      source: 'MCR',
      what: '8 microsteps',
      value: share(8),
      published: '19.51',
      recomputed: 19.50903,
    },
    {
      id: 'N185',
      source: 'MD',
      what: '32 microsteps',
      value: share(32),
      published: '4.91',
      recomputed: 4.906767,
      standing: memory,
    },
    {
      id: 'N186',
      source: 'MD',
      what: '64 microsteps',
      value: share(64),
      published: '2.45',
      recomputed: 2.454123,
      standing: memory,
    },
    {
      id: 'N188',
      source: 'MCR',
      what: '256 microsteps',
      value: share(256),
      published: '0.61',
      recomputed: 0.6135885,
    },
  ],
  6,
);

const turns = (volt: number, ampere: number, mH: number, steps: number) =>
  cornerSpeed(volt, mH / 1e3, ampere, steps) / TURN;
const stepTime = (volt: number, ampere: number, mH: number) => leastStepTime(volt, mH / 1e3, ampere) * 1e3;

checkRows(
  'Speed limited by inductance (4.3)',
  [
    {
      id: 'N189',
      source: 'KW',
      what: 'turns/s, 24 V, 2 A, 5 mH, 200 steps',
      value: turns(24, 2, 5, 200),
      published: '6',
      recomputed: 6,
    },
    {
      id: 'N191',
      source: 'KW',
      what: 'turns/s, 12 V, 1.5 A, 3 mH, 200 steps',
      value: turns(12, 1.5, 3, 200),
      published: '6.67',
      recomputed: 6.666667,
    },
    {
      id: 'N192',
      source: 'KW',
      what: 'ms, 12 V, 1.5 A, 3 mH',
      value: stepTime(12, 1.5, 3),
      published: '0.75',
      recomputed: 0.75,
    },
    {
      id: 'N194',
      source: 'KW',
      what: 'ms, 24 V, 3 A, 4 mH',
      value: stepTime(24, 3, 4),
      published: '1.00',
      recomputed: 1,
    },
    {
      id: 'N195',
      source: 'KW',
      what: 'turns/s, 48 V, 2 A, 6 mH, 400 steps',
      value: turns(48, 2, 6, 400),
      published: '2.50',
      recomputed: 5,
      differs: 'half of what the formula on the page gives',
    },
    {
      id: 'N197',
      source: 'KW',
      what: 'turns/s, 36 V, 2.5 A, 5 mH, 200 steps',
      value: turns(36, 2.5, 5, 200),
      published: '3.60',
      recomputed: 7.2,
      differs: 'half of what the formula on the page gives',
    },
    {
      id: 'N198',
      source: 'KW',
      what: 'ms, 36 V, 2.5 A, 5 mH',
      value: stepTime(36, 2.5, 5),
      published: '0.69',
      recomputed: 0.6944444,
    },
  ],
  7,
);

checkRows(
  'Time constant of a winding (4.4)',
  [
    {
      id: 'N200',
      source: 'TAU',
      what: 'ms, 2.5 mH, 1.2 ohm',
      value: timeConstant(2.5e-3, 1.2) * 1e3,
      recomputed: 2.083333,
      standing: derived,
    },
    {
      id: 'N202',
      source: 'MEM',
      what: 'percent of the current after one constant',
      value: currentShare(1, 1) * 100,
      published: '63.2',
      recomputed: 63.21206,
      standing: memory,
    },
    {
      id: 'N203',
      source: 'RL',
      what: 'ms, 50 mH, 10 ohm',
      value: timeConstant(50e-3, 10) * 1e3,
      published: '5',
      recomputed: 5,
    },
    {
      id: 'N205',
      source: 'RL',
      what: 'A after one constant, 45 V, 250 ohm',
      value: (45 / 250) * currentShare(1, 1),
      published: '0.1134',
      recomputed: 0.1137817,
      differs: 'the page rounds 0.632 to 0.63',
    },
    {
      id: 'N206',
      source: 'RL',
      what: 'ms to 99.9 %, 16 mH, 4 ohm',
      value: timeToCurrentShare(0.999, timeConstant(16e-3, 4)) * 1e3,
      published: '27.63',
      recomputed: 27.63102,
    },
  ],
  5,
);

checkRows(
  'Usual supply of steppers (4.5, 4.6)',
  [
    {
      id: 'N207',
      source: 'MEM',
      what: 'V, 1.5 mH',
      value: usualTopVoltage(1.5e-3),
      recomputed: 39.19184,
      standing: practice,
    },
    {
      id: 'N209',
      source: 'MEM',
      what: 'V, 4 mH',
      value: usualTopVoltage(4e-3),
      recomputed: 64,
      standing: practice,
    },
    {
      id: 'N210',
      source: 'MEM',
      what: 'V, 6 mH',
      value: usualTopVoltage(6e-3),
      recomputed: 78.38367,
      standing: practice,
    },
    {
      id: 'N212',
      source: 'MEM',
      what: 'A, 3 motors of 4.2 A',
      value: usualSupplyCurrent([4.2, 4.2, 4.2]),
      recomputed: 8.4,
      standing: practice,
    },
    {
      id: 'N214',
      source: 'MEM',
      what: 'A, 4 motors of 5 A',
      value: usualSupplyCurrent([5, 5, 5, 5]),
      recomputed: 13.33333,
      standing: practice,
    },
    {
      id: 'N215',
      source: 'MEM',
      what: 'A, 2 motors of 6 A',
      value: usualSupplyCurrent([6, 6]),
      recomputed: 8,
      standing: practice,
    },
  ],
  6,
);

const preloaded = thrust(40, 0, 0.05, 0);

checkRows(
  'Load torque of a screw axis (4.8), N.m',
  [
    {
      id: 'N232',
      source: 'YA',
      what: '250 kg, friction 0.2, lead 10 mm, 2:1, 90 %',
      value: loadTorque(thrust(250, 0, 0.2, 0), 10 * MM, 0.9, 2),
      published: '0.43',
      recomputed: 0.4332551,
      within: [7e-4, 'the manual takes 9.8 m/s2'],
    },
    {
      id: 'N234',
      source: 'OM',
      what: '40 kg, friction 0.05, lead 15 mm, 90 %, preloaded nut',
      value: loadTorque(preloaded, 15 * MM, 0.9, 1) + 0.3 * loadTorque(preloaded / 3, 15 * MM, 1, 1),
      published: '0.0567',
      recomputed: 0.05671025,
      standing: memory,
      within: [4e-5, 'the example takes 9.807 m/s2'],
    },
  ],
  2,
);

const yaDriven = massInertia(250, 10 * MM) + barInertia(7870, 1, 20 * MM);
const ybScrew = barInertia(7870, 1.4, 40 * MM);
const mitScrew = barInertia(7800, 0.5, 20 * MM);
const mitPinion = barInertia(7800, 10 * MM, 25 * MM);
const mitDriven = massInertia(60, 16 * MM) + mitScrew + barInertia(7800, 10 * MM, 40 * MM);

checkRows(
  'Inertia at the motor (4.9, 5.9), kg.m2',
  [
    {
      id: 'N235',
      source: 'YA',
      what: '250 kg, lead 10 mm, 2:1',
      value: inertiaAtMotor(0, massInertia(250, 10 * MM), 2),
      published: '1.58e-4',
      recomputed: 1.583143e-4,
    },
    {
      id: 'N237',
      source: 'YA',
      what: 'mass, screw and gear',
      value: inertiaAtMotor(0.4e-4, yaDriven, 2),
      published: '2.29e-4',
      recomputed: 2.292198e-4,
    },
    {
      id: 'N238',
      source: 'YB',
      what: '500 kg, lead 10 mm',
      value: massInertia(500, 10 * MM),
      published: '12.7e-4',
      recomputed: 0.001266515,
    },
    {
      id: 'N240',
      source: 'YB',
      what: 'coupling of 1 kg, 60 mm',
      value: discInertia(1, 60 * MM),
      published: '4.5e-4',
      recomputed: 4.5e-4,
    },
    {
      id: 'N241',
      source: 'YB',
      what: 'mass, screw and coupling',
      value: inertiaAtMotor(discInertia(1, 60 * MM), massInertia(500, 10 * MM) + ybScrew, 1),
      published: '44.9e-4',
      recomputed: 0.00448564,
    },
    {
      id: 'N243',
      source: 'MIT',
      what: 'screw of 20 mm, 500 mm, 5:8',
      value: inertiaAtMotor(0, mitScrew, 8 / 5),
      published: '0.24e-4',
      recomputed: 2.39301e-5,
    },
    {
      id: 'N244',
      source: 'MIT',
      what: 'pinion of 25 mm, 10 mm',
      value: mitPinion,
      published: '0.03e-4',
      recomputed: 2.991263e-6,
    },
    {
      id: 'N246',
      source: 'MIT',
      what: 'mass, screw and both gears, 5:8',
      value: inertiaAtMotor(mitPinion, mitDriven, 8 / 5),
      published: '1.9e-4',
      recomputed: 1.865608e-4,
    },
    {
      id: 'N247',
      source: 'OM',
      what: 'screw of 15 mm, 600 mm',
      value: barInertia(7900, 0.6, 15 * MM),
      published: '0.236e-4',
      recomputed: 2.355826e-5,
      standing: memory,
    },
    {
      id: 'F066',
      source: 'MIKI',
      what: '1 kg on a rack or belt of 40 mm pitch diameter, m D2/4',
      value: massInertia(1, Math.PI * 40 * MM),
      recomputed: 4e-4,
    },
  ],
  10,
);

const at3000 = 3000 * RPM;
const at1200 = 1200 * RPM;

checkRows(
  'Power and acceleration torque (4.10)',
  [
    {
      id: 'N249',
      source: 'YA',
      what: 'W at 3000 rpm, 0.43 N.m',
      value: shaftPower(0.43, at3000),
      published: '135',
      recomputed: 135.0885,
    },
    {
      id: 'N251',
      source: 'YC',
      what: 'W to 3000 rpm in 0.1 s',
      value: shaftPower(accelerationTorque(0.474e-4, at3000 / 0.1), at3000),
      published: '46.78',
      recomputed: 46.78192,
    },
    {
      id: 'N252',
      source: 'YC',
      what: 'N.m, start',
      value: accelerationTorque(inertiaAtMotor(0.00629e-4, 0.474e-4, 1), at3000 / 0.1) + 0.035,
      published: '0.186',
      recomputed: 0.1858876,
    },
    {
      id: 'N254',
      source: 'OM',
      what: 'N.m, twice load and acceleration, to 1200 rpm in 0.2 s',
      value: 2 * (0.0567 + accelerationTorque(2.52e-4, at1200 / 0.2)),
      published: '0.429',
      recomputed: 0.4300492,
      standing: memory,
      differs: 'the example adds its rounded parts',
      within: [6e-5, 'the example takes 9.55 for 60 / 2π'],
    },
  ],
  4,
);

// The catalogue works in ounces and inches with 24 in place of 386.09 / 16, and doubles the result for safety.
const catalogue = 2 * (GRAVITY / INCH / 16 / 24);
const catalogueTorque = (lbIn2: number, stepsPerSecond: number, seconds: number) =>
  (catalogue * accelerationTorque(lbIn2 * POUND * INCH ** 2, (stepsPerSecond * 1.8 * DEG) / seconds)) /
  OUNCE_INCH;
const pulley = massInertia(5 * POUND, Math.PI * 3 * INCH) / (POUND * INCH ** 2);
const lifting = loadTorque((80 / 16) * LBF, Math.PI * 3 * INCH, 1, 1) / OUNCE_INCH;

checkRows(
  'Acceleration torque in inch units (4.11)',
  [
    {
      id: 'N255',
      source: 'TEC',
      what: 'ozf in, 9.2 lb in2, to 1000 steps/s in 0.5 s',
      value: catalogueTorque(9.2, 1000, 0.5),
      published: '48.2',
      recomputed: 48.17109,
    },
    {
      id: 'N257',
      source: 'TEC',
      what: 'steps/s at 19.1 turns/s',
      value: pulseRateAtFeed(19.1 * TURN, 200 / TURN),
      published: '3820',
      recomputed: 3820,
    },
    {
      id: 'N258',
      source: 'TEC',
      what: 'lb in2, 5 lb on a radius of 1.5 in, and 4.5 and 2.5',
      value: pulley + 4.5 + 2.5,
      published: '18.25',
      recomputed: 18.25,
    },
    {
      id: 'N260',
      source: 'TEC',
      what: 'ozf in, 80 ozf on a radius of 1.5 in',
      value: lifting,
      published: '120',
      recomputed: 120,
    },
    {
      id: 'N261',
      source: 'TEC',
      what: 'ozf in, acceleration and lifting',
      value: catalogueTorque(18.25, 3820, 0.5) + lifting,
      published: '484',
      recomputed: 485.0269,
      differs: 'the catalogue adds its rounded parts',
    },
  ],
  5,
);
