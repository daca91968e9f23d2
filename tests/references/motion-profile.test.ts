import { move, rampTo, stoppingDistance, stopWithJerk } from '../../server/core/motion/profile.ts';
import { period } from '../../server/core/motion/timing.ts';
import { checkRows } from './rows.ts';
import { MM } from './units.ts';

const memory = 'from memory';
const derived = 'worked out here';

const third = move(300 * MM, 300 * MM, (4.5 * 300 * MM) / 1.5 ** 2);
const triangle = move(300 * MM, 1, (4 * 300 * MM) / 1.5 ** 2);

checkRows(
  'Trapezoid and triangle (4.12, 4.13)',
  [
    {
      id: 'N262',
      source: 'YA',
      what: 's per cycle, 40 a minute',
      value: period(40 / 60),
      published: '1.5',
      recomputed: 1.5,
    },
    {
      id: 'N264a',
      source: 'YA',
      what: 's of cruise, 0.275 m at 15 m/min, ramps of 0.1 s',
      value: move(0.275, 0.25, 0.25 / 0.1).cruise,
      published: '1.0',
      recomputed: 1,
    },
    {
      id: 'N264b',
      source: 'YA',
      what: 's of the whole move',
      value: move(0.275, 0.25, 0.25 / 0.1).time,
      published: '1.2',
    },
    {
      id: 'N265a',
      source: 'TRAP',
      what: 'mm/s peak of a one-third profile, 300 mm in 1.5 s',
      value: third.peak / MM,
      recomputed: 300,
      standing: derived,
    },
    {
      id: 'N265b',
      source: 'TRAP',
      what: 's of that move',
      value: third.time,
      recomputed: 1.5,
      standing: derived,
    },
    {
      id: 'N265c',
      source: 'TRAP',
      what: 's of its ramp, a third',
      value: third.ramp.time,
      recomputed: 0.5,
      standing: derived,
    },
    {
      id: 'N267a',
      source: 'TRAP',
      what: 'mm/s peak of a triangle, 300 mm in 1.5 s',
      value: triangle.peak / MM,
      recomputed: 400,
      standing: derived,
    },
    {
      id: 'N267b',
      source: 'TRAP',
      what: 's of that move',
      value: triangle.time,
      recomputed: 1.5,
      standing: derived,
    },
    {
      id: 'F058',
      source: 'FIR',
      what: 'm of a ramp of 2 s at 3 m/s2, a t2/2',
      value: rampTo(6, 3).distance,
      recomputed: 6,
      standing: derived,
    },
  ],
  9,
);

const jerky = stopWithJerk(100, 1000, 50e3);

checkRows(
  'Stopping distance (10.1)',
  [
    {
      id: 'N449',
      source: 'STOP',
      what: 'm, 30 m/s, 7 m/s2',
      value: stoppingDistance(30, 7),
      published: '64.29',
      recomputed: 64.28571,
    },
    {
      id: 'N451',
      source: 'STOP',
      what: 'm, 30 m/s, 7 m/s2, 0.5 s',
      value: stoppingDistance(30, 7, 0.5),
      published: '79.3',
      recomputed: 79.28571,
      standing: memory,
    },
    {
      id: 'N452',
      source: 'STOP',
      what: 'm, 30 m/s, 5 m/s2',
      value: stoppingDistance(30, 5),
      published: '90.0',
      recomputed: 90,
      standing: memory,
    },
    {
      id: 'N454',
      source: 'STOP',
      what: 'm, 20 m/s, 5 m/s2',
      value: stoppingDistance(20, 5),
      published: '40',
      recomputed: 40,
    },
    {
      id: 'N455',
      source: 'STOP',
      what: 'm, 20 m/s, 7 m/s2',
      value: stoppingDistance(20, 7),
      published: '28.57',
      recomputed: 28.57143,
    },
    {
      id: 'N457',
      source: 'GIA',
      what: 'm, 95 km/h, 6 m/s2, 0.4 s',
      value: stoppingDistance(95 / 3.6, 6, 0.4),
      published: '68.60',
      recomputed: 68.58668,
      differs: 'the answer takes 26.39 m/s',
    },
    {
      id: 'N458',
      source: 'FRI',
      what: 'm, 25 m/s, half of 9.81 m/s2',
      value: stoppingDistance(25, 0.5 * 9.81),
      published: '63.71',
      recomputed: 63.7105,
    },
    {
      id: 'N460',
      source: 'JERK',
      what: 'mm, 50 mm/s, 500 mm/s2',
      value: stoppingDistance(50 * MM, 500 * MM) / MM,
      recomputed: 2.5,
      standing: derived,
    },
    {
      id: 'N461',
      source: 'JERK',
      what: 'mm, 100 mm/s, 1000 mm/s2, 10 ms',
      value: stoppingDistance(100 * MM, 1000 * MM, 0.01) / MM,
      recomputed: 6,
      standing: derived,
    },
    {
      id: 'N463',
      source: 'JERK',
      what: 'mm, 100 mm/s, 1000 mm/s2, 50 000 mm/s3',
      value: jerky.distance,
      recomputed: 6,
      standing: derived,
    },
    {
      id: 'N464',
      source: 'JERK',
      what: 's, 100 mm/s, 1000 mm/s2, 50 000 mm/s3',
      value: jerky.time,
      recomputed: 0.12,
      standing: derived,
    },
    {
      id: 'N466',
      source: 'JERK',
      what: 's, 10 mm/s, 50 000 mm/s3, by jerk alone; the page prints half, sqrt(v J) / J',
      value: stopWithJerk(10, 1000, 50e3).time,
      recomputed: 0.02828427,
      standing: derived,
    },
  ],
  12,
);
