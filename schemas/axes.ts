import { z } from 'zod';
import * as figure from './figures.ts';
import { choice, count, nameOf, number, ratio } from './leaf.ts';
import { optional } from './section.ts';

const efficiency = figure
  .share('1 %', '100 %')
  .describe(
    'How much of the power put in comes out as motion, such as `90 %` for a ball screw and `35 %` for a trapezoidal one.',
  );

const screw = z.strictObject(
  optional({
    lead: figure
      .length('0.2 mm', '200 mm')
      .describe(
        'How far the nut moves in one turn, such as `5 mm`. It stands alone or is pitch times starts.',
      ),
    pitch: figure
      .length('0.2 mm', '100 mm')
      .describe(
        'From one thread to the next, such as `2 mm`. Give it with `starts` where the lead is not known.',
      ),
    starts: count(1, 20).describe(
      'How many threads run side by side, such as `4`. The lead is pitch × starts.',
    ),
    root: figure
      .length('2 mm', '200 mm')
      .describe(
        'The diameter at the bottom of the thread, such as `13 mm`. It decides critical speed, buckling and inertia.',
      ),
    length: figure
      .length('20 mm', '20 m')
      .describe('The screw’s length between its bearings, such as `820 mm`.'),
    ends: choice({
      'fixed-fixed': 'Both ends are held against tilting.',
      'fixed-supported': 'One end is held against tilting, the other only guided.',
      'supported-supported': 'Both ends are only guided.',
      'fixed-free': 'One end is held against tilting, the other is loose.',
    }).describe('How the two ends are held. It decides how fast the screw may turn before it whips.'),
    'nut-speed': figure
      .angularSpeed('10 rpm', '20000 rpm')
      .describe(
        'The fastest that the nut may turn by its datasheet, such as `3000 rpm`. From a DN value it is DN / nominal diameter in mm.',
      ),
    efficiency,
  }),
);

const belt = z.strictObject({
  pitch: figure.length('0.5 mm', '50 mm').describe('From one tooth of the belt to the next, such as `3 mm`.'),
  teeth: count(5, 1000).describe('The number of teeth of the driven pulley, such as `20`.'),
  ...optional({ efficiency }),
});

const rack = z.strictObject({
  module: figure
    .length('0.2 mm', '20 mm')
    .describe('The module of the toothing, such as `1.25 mm`. One tooth is π × module long.'),
  teeth: count(5, 1000).describe('The number of teeth of the pinion, such as `20`.'),
  ...optional({ efficiency }),
});

/** One name, or several where an axis has more than one motor. */
const oneOrMore = () => z.union([nameOf('part'), z.array(nameOf('part')).min(1)]);

const common = {
  drive: oneOrMore().describe(
    'The drive of the axis, by its name in `parts`. Two drives that move one axis stand in a list: `[drive-y1, drive-y2]`.',
  ),
  motor: oneOrMore().describe(
    'The motor of the axis, by its name in `parts`. Two motors stand in a list, in the order of their drives.',
  ),
  gearing: ratio().describe(
    'Motor turns to driven turns, such as `3:1` when the motor turns three times for one turn of what it drives. Left out, it is `1:1`.',
  ),
  switches: z
    .strictObject(
      optional({
        far: nameOf('part').describe(
          'The switch or sensor at the end of travel in the plus direction of the axis.',
        ),
        near: nameOf('part').describe('The switch or sensor at the end of travel in the minus direction.'),
        home: nameOf('part').describe('The switch or sensor from which the axis counts.'),
      }),
    )
    .describe('The switches and sensors of the axis, each by its name in `parts`.'),
};

const homing = (speed: typeof figure.speed, least: string, most: string, examples: [string, string]) =>
  z
    .strictObject(
      optional({
        feed: speed(least, most).describe(
          `How fast the axis looks for its home switch, such as \`${examples[0]}\`.`,
        ),
        creep: speed(least, most).describe(
          `How slowly it comes back to find the switching point exactly, such as \`${examples[1]}\`.`,
        ),
      }),
    )
    .describe('How the axis finds the place from which it counts.');

const linearAxis = z.strictObject(
  optional({
    drive: common.drive,
    motor: common.motor,
    travel: figure
      .length('1 mm', '20 m')
      .describe('How far the axis can move between its two ends, such as `640 mm`.'),
    screw: screw.describe('The screw that moves the axis. Give its lead, or its pitch and starts.'),
    belt: belt.describe('The toothed belt that moves the axis, in place of a screw.'),
    rack: rack.describe('The rack and pinion that move the axis, in place of a screw.'),
    gearing: common.gearing,
    mass: figure
      .mass('10 g', '10000 kg')
      .describe('What the axis moves, motor and tool included, such as `24 kg`.'),
    friction: number(0, 1).describe(
      'The share of the weight that the guides hold back, such as `0.02` for rolling guides.',
    ),
    incline: figure
      .angle('-90 deg', '90 deg')
      .describe(
        'How steeply the axis rises: `0 deg` lies flat, `90 deg` stands upright and carries its own weight.',
      ),
    force: figure
      .force('0 N', '100 kN')
      .describe('The cutting force along the axis that it must still move against, such as `150 N`.'),
    feed: figure
      .speed('1 mm/min', '300 m/min')
      .describe('The feed that you want to reach, such as `3000 mm/min`.'),
    acceleration: figure
      .acceleration('1 mm/s2', '100 m/s2')
      .describe('How quickly it gains speed, such as `400 mm/s2`.'),
    overtravel: figure
      .length('0 mm', '500 mm')
      .describe('From the place where the limit switch trips to the hard stop, such as `8 mm`.'),
    homing: homing(figure.speed, '0.1 mm/min', '300 m/min', ['900 mm/min', '60 mm/min']),
    switches: common.switches,
  }),
);

const rotaryAxis = z.strictObject(
  optional({
    drive: common.drive,
    motor: common.motor,
    travel: figure
      .angle('0.1 deg', '1000 rev')
      .describe('How far the axis can turn, such as `360 deg` for a full turn.'),
    worm: ratio().describe('Worm turns to one turn of the table, such as `90:1`.'),
    gearing: common.gearing,
    efficiency: figure
      .share('1 %', '100 %')
      .describe('How much of the power put in comes out at the table, such as `45 %` for a worm.'),
    inertia: figure
      .inertia('0 kg.m2', '1000 kg.m2')
      .describe('The moment of inertia of the table with its work, such as `0.02 kg.m2`.'),
    torque: figure
      .torque('0 N.m', '10000 N.m')
      .describe('The cutting torque about the axis that it must still turn against, such as `4 N.m`.'),
    feed: figure
      .angularSpeed('0.001 rpm', '10000 rpm')
      .describe('The feed that you want to reach, such as `20 rpm`.'),
    acceleration: figure
      .angularAcceleration('0.1 deg/s2', '10000 rev/s2')
      .describe('How quickly it gains speed, such as `90 deg/s2`.'),
    overtravel: figure
      .angle('0 deg', '360 deg')
      .describe('From the place where the limit switch trips to the hard stop, such as `5 deg`.'),
    homing: homing(figure.angularSpeed, '0.0001 rpm', '10000 rpm', ['2 rpm', '0.2 rpm']),
    switches: common.switches,
  }),
);

linearAxis.register(z.globalRegistry, { id: 'linear-axis' });
rotaryAxis.register(z.globalRegistry, { id: 'rotary-axis' });

const linear = (which: string) => linearAxis.describe(`The ${which}, a linear axis.`);
const rotary = (which: string) => rotaryAxis.describe(`The rotary axis ${which}.`);

/** The axes by their letters of ISO 841. */
export const axes = z.strictObject(
  optional({
    X: linear('axis X'),
    Y: linear('axis Y'),
    Z: linear('axis Z, along the spindle'),
    A: rotary('A, about X'),
    B: rotary('B, about Y'),
    C: rotary('C, about Z'),
    U: linear('axis U, a second one along X'),
    V: linear('axis V, a second one along Y'),
    W: linear('axis W, a second one along Z'),
  }),
);
