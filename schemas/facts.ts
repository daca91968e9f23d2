import { z } from 'zod';
import * as figure from './figures.ts';
import { choice, count } from './leaf.ts';
import { optional } from './section.ts';

/** What is neither electrical nor can be set. */
export const facts = z.strictObject(
  optional({
    'conductors-per-terminal': count(1, 20).describe('How many conductors one terminal takes, such as `2`.'),
    chassis: choice({ metal: 'The chassis is of metal and must be earthed.' }).describe(
      '`metal` where the part has a metal chassis, which must then be joined to earth.',
    ),
    'step-angle': figure
      .angle('0.01 deg', '90 deg')
      .describe('How far the motor turns in one full step, such as `1.8 deg`.'),
    'holding-torque': figure
      .torque('1 mN.m', '200 N.m')
      .describe('The torque with which the motor stands at its rated current, such as `2.0 N.m`.'),
    inertia: figure
      .inertia('0.1 g.cm2', '1 kg.m2')
      .describe('The moment of inertia of the rotor, such as `480 g.cm2`.'),
    'current-basis': choice({
      peak: 'Currents are stated as the peak of the sine.',
      rms: 'Currents are stated as the effective (RMS) value; the peak is √2 times as much.',
    }).describe('How this sheet states phase currents. A drive and a motor can differ in it by √2.'),
    detents: count(1, 10_000).describe('How many clicks the handwheel makes in one turn, such as `100`.'),
    'counts-per-detent': count(1, 100).describe('How many counts one click gives, such as `4`.'),
    poles: count(2, 100).describe('How many poles the motor has, such as `2`. It is always an even number.'),
    'plate-frequency': figure
      .frequency('10 Hz', '5 kHz')
      .describe('The frequency on the motor’s plate, such as `400 Hz`.'),
    'plate-speed': figure
      .angularSpeed('10 rpm', '300000 rpm')
      .describe('The speed on the motor’s plate, reached at the plate frequency, such as `24000 rpm`.'),
    power: figure.power('1 W', '500 kW').describe('The power on the plate, such as `2.2 kW`.'),
    'least-speed': figure
      .angularSpeed('0 rpm', '100000 rpm')
      .describe('The slowest speed that the maker allows under load, such as `6000 rpm`.'),
    'sensing-distance': figure
      .length('0.01 mm', '10 m')
      .describe('How near the target must come for the sensor to switch, such as `4 mm`.'),
    repeatability: figure
      .length('0 mm', '20 mm')
      .describe('How closely it switches at the same place every time, such as `0.02 mm`.'),
    delay: figure
      .duration('0 ms', '5 s')
      .describe('How long it takes to switch after it was operated, such as `2 ms`.'),
  }),
);
