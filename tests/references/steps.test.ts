import { describe, expect, it } from 'vitest';
import { feedAtPulseRate, motorSpeed, pulseRateAtFeed } from '../../server/core/motion/feed.ts';
import {
  beltTravel,
  pulsesPerTravel,
  pulsesPerTurn,
  rackTravel,
  resolution,
  screwLead,
  stepsPerTurn,
  wormTravel,
} from '../../server/core/motion/pulses.ts';
import { roundingDrift } from '../../server/core/motion/rounding.ts';
import { checkRows, setAside } from './rows.ts';
import { DEG, INCH, MINUTE, MM, RPM, TURN } from './units.ts';

const memory = 'from memory';
const derived = 'worked out here';
const practice = 'common practice, no source';

checkRows(
  'Steps and pulses per turn (4.1)',
  [
    {
      id: 'N168',
      source: 'UCP',
      what: 'steps, 1.8 deg',
      value: stepsPerTurn(1.8 * DEG),
      published: '200',
      recomputed: 200,
    },
    {
      id: 'N173',
      source: 'MEM',
      what: 'steps, 7.5 deg',
      value: stepsPerTurn(7.5 * DEG),
      published: '48',
      recomputed: 48,
      standing: memory,
    },
    {
      id: 'N174',
      source: 'UCP',
      what: 'pulses, 1.8 deg, 16 microsteps',
      value: pulsesPerTurn(stepsPerTurn(1.8 * DEG), 16),
      published: '3200',
      recomputed: 3200,
    },
    {
      id: 'N176',
      source: 'UCP',
      what: 'pulses, 0.9 deg, 32 microsteps',
      value: pulsesPerTurn(stepsPerTurn(0.9 * DEG), 32),
      published: '12800',
      recomputed: 12800,
    },
    {
      id: 'N177',
      source: 'MD',
      what: 'pulses, 1.8 deg, 256 microsteps',
      value: pulsesPerTurn(stepsPerTurn(1.8 * DEG), 256),
      published: '51200',
      recomputed: 51200,
    },
    {
      id: 'N179',
      source: 'UCP',
      what: 'Hz at 200 rpm, 200 pulses',
      value: pulseRateAtFeed(200 * RPM, 200 / TURN),
      published: '667',
      recomputed: 666.6667,
    },
  ],
  6,
);

setAside({
  N170: 'flange of NEMA 17: a mounting size, from which nothing is computed (F056)',
  N171: 'flange of NEMA 23: a mounting size, from which nothing is computed (F056)',
});

const perCm = (threads: number) => (10 / threads) * MM;
const pulses = (perTurn: number, gearing: number, lead: number, distance: number) =>
  pulsesPerTravel(perTurn, gearing, lead) * distance;

checkRows(
  'Positioning by lead screw (4.7)',
  [
    {
      id: 'N216',
      source: 'GRO',
      what: 'pulses for 120 mm, lead 7.5 mm',
      value: pulses(200, 1, 7.5 * MM, 120 * MM),
      recomputed: 3200,
      standing: derived,
    },
    {
      id: 'N218',
      source: 'GRO',
      what: 'rpm at 300 mm/min, lead 7.5 mm',
      value: motorSpeed((300 * MM) / MINUTE, 7.5 * MM, 1) / RPM,
      recomputed: 40,
      standing: derived,
    },
    {
      id: 'N219',
      source: 'GRO',
      what: 'pulses for 25 cm, 2.4 threads/cm, 5:1',
      value: pulses(200, 5, perCm(2.4), 250 * MM),
      recomputed: 60000,
      standing: derived,
    },
    {
      id: 'N221',
      source: 'GRO',
      what: 'Hz at 75 cm/min, 2.4 threads/cm, 5:1',
      value: pulseRateAtFeed((750 * MM) / MINUTE, pulsesPerTravel(200, 5, perCm(2.4))),
      recomputed: 3000,
      standing: derived,
    },
    {
      id: 'N222',
      source: 'GRO',
      what: 'pulses for 10 in, 5 tpi, 100 steps, 9:1',
      value: pulses(100, 9, INCH / 5, 10 * INCH),
      recomputed: 45000,
      standing: derived,
    },
    {
      id: 'N225',
      source: 'GRO',
      what: 'encoder pulses for 100 mm, lead 5 mm, 200 per turn',
      value: pulses(200, 1, 5 * MM, 100 * MM),
      recomputed: 4000,
      standing: derived,
    },
    {
      id: 'N227',
      source: 'YC',
      what: 'mm per pulse of 250 per turn, lead 5 mm',
      value: resolution(pulsesPerTravel(250, 1, 5 * MM)) / MM,
      recomputed: 0.02,
      standing: derived,
    },
    {
      id: 'N228',
      source: 'MIT',
      what: 'rpm at 30 m/min, lead 16 mm, gear 5:8',
      value: motorSpeed(30 / MINUTE, 16 * MM, 8 / 5) / RPM,
      published: '3000',
      recomputed: 3000,
    },
    {
      id: 'N230',
      source: 'YA',
      what: 'rpm of the screw at 15 m/min, lead 10 mm',
      value: motorSpeed(15 / MINUTE, 10 * MM, 1) / RPM,
      published: '1500',
      recomputed: 1500,
    },
    {
      id: 'N231',
      source: 'YA',
      what: 'rpm of the motor at 15 m/min, lead 10 mm, gear 1/2',
      value: motorSpeed(15 / MINUTE, 10 * MM, 2) / RPM,
      published: '3000',
      recomputed: 3000,
    },
  ],
  10,
);

describe('Positioning by lead screw (4.7), the least steps: 1 row', () => {
  it('N224 a 4 mm lead needs 267 steps for 0.015 mm, 266 are too few [GRO; worked out here]', () => {
    expect(resolution(pulsesPerTravel(267, 1, 4 * MM))).toBeLessThanOrEqual(0.015 * MM);
    expect(resolution(pulsesPerTravel(266, 1, 4 * MM))).toBeGreaterThan(0.015 * MM);
  });
});

const xl50 = beltTravel(0.2 * INCH, 50);
const belt2mm20 = beltTravel(2 * MM, 20);

checkRows(
  'Travel per turn and pulses per travel (5.7, 5.9)',
  [
    {
      id: 'N304',
      source: 'RACK',
      what: 'mm/turn, rack of module 2, 20 teeth',
      value: rackTravel(2 * MM, 20) / MM,
      published: '125.66',
      recomputed: 125.6637,
    },
    {
      id: 'N306',
      source: 'BELT',
      what: 'in/turn, XL belt, 50 teeth',
      value: xl50 / INCH,
      published: '10',
      recomputed: 10,
    },
    {
      id: 'N307',
      source: 'BELT',
      what: 'pulses/in, 200 x 16, XL belt, 50 teeth',
      value: pulsesPerTravel(3200, 1, xl50) * INCH,
      published: '320',
      recomputed: 320,
    },
    {
      id: 'N309',
      source: 'BELT',
      what: 'pulses/in, 200 x 32, XL belt, 50 teeth',
      value: pulsesPerTravel(6400, 1, xl50) * INCH,
      published: '640',
      recomputed: 640,
    },
    {
      id: 'N310',
      source: 'BELT',
      what: 'pulses/mm, 200 x 2, 2 mm belt, 20 teeth',
      value: pulsesPerTravel(400, 1, belt2mm20) * MM,
      published: '10',
      recomputed: 10,
    },
    {
      id: 'N312',
      source: 'GT2',
      what: 'mm/turn, 2 mm belt, 20 teeth',
      value: belt2mm20 / MM,
      recomputed: 40,
      standing: derived,
    },
    {
      id: 'N313',
      source: 'GT2',
      what: 'mm pitch diameter, 2 mm belt, 20 teeth',
      value: belt2mm20 / Math.PI / MM,
      recomputed: 12.7324,
      standing: derived,
      within: [2e-6, 'six digits'],
    },
    {
      id: 'N315',
      source: 'MEM',
      what: 'pulses/mm, 200 x 10, 5 tpi',
      value: pulsesPerTravel(2000, 1, INCH / 5) * MM,
      recomputed: 393.7008,
      standing: practice,
    },
    {
      id: 'N316',
      source: 'MEM',
      what: 'pulses/mm, 200 x 8, belt 40 mm/turn',
      value: pulsesPerTravel(1600, 1, belt2mm20) * MM,
      recomputed: 40,
      standing: practice,
    },
    {
      id: 'N318',
      source: 'ROTT',
      what: 'deg per turn of a 40:1 worm',
      value: wormTravel(40) / DEG,
      published: '9',
      recomputed: 9,
    },
    {
      id: 'N319',
      source: 'ROTT',
      what: 'turns of a 90:1 worm for 90 deg',
      value: (90 * DEG) / wormTravel(90),
      published: '22.5',
      recomputed: 22.5,
    },
    {
      id: 'F067',
      source: 'MEM',
      what: 'mm lead of four starts of 2 mm pitch',
      value: screwLead(2 * MM, 4) / MM,
      published: '8',
      standing: memory,
    },
  ],
  12,
);

const rackPulses = pulsesPerTravel(3200, 1, rackTravel(1 * MM, 20));
const inchPulses = pulsesPerTravel(3200, 1, INCH / 5);

checkRows(
  'Rounding of pulses per travel (10.2)',
  [
    {
      id: 'N467',
      source: 'MEM',
      what: 'mm in 1000 mm, 50.93 stored for 160/π',
      value: roundingDrift(50.93 / MM, rackPulses, 1) / MM,
      recomputed: 0.008211546,
      standing: practice,
    },
    {
      id: 'N469',
      source: 'MEM',
      what: 'mm in 600 mm, 630 stored for 3200/5.08',
      value: roundingDrift(630 / MM, inchPulses, 0.6) / MM,
      recomputed: 0.075,
      standing: practice,
    },
    {
      id: 'N470',
      source: 'SPS',
      what: 'increments per tooth, 2048 over 67 teeth',
      value: pulsesPerTravel(2048, 1, 67),
      published: '30.567164179104477',
      recomputed: 30.56716,
    },
  ],
  3,
);

checkRows(
  'Speed limits (10.3)',
  [
    {
      id: 'N472',
      source: 'MEM',
      what: 'mm/min at 100 kHz, 640 pulses/mm',
      value: (feedAtPulseRate(100e3, 640 / MM) / MM) * MINUTE,
      recomputed: 9375,
      standing: practice,
    },
    {
      id: 'N474',
      source: 'MEM',
      what: 'rpm at 3750 mm/min, lead 5 mm',
      value: motorSpeed((3750 * MM) / MINUTE, 5 * MM, 1) / RPM,
      recomputed: 750,
      standing: practice,
    },
  ],
  2,
);
