import type { z } from 'zod';
import { quantity, span } from './leaf.ts';

/*
 * The quantities of the format by dimension, each with the units that fit, likeliest first. The two bounds that every
 * use gives are the values beyond which no machine of this size lies. They are wide on purpose: they are there to
 * catch slips of a thousand, not to judge a design (common practice, no source).
 */

export const acceleration = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'acceleration', units: ['mm/s2', 'm/s2', 'in/s2'], plausible: [least, most] });

export const angle = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'angle', units: ['deg', 'rev', 'rad'], plausible: [least, most] });

export const angularAcceleration = (least: string, most: string): z.ZodType =>
  quantity({
    dimension: 'angular-acceleration',
    units: ['deg/s2', 'rev/s2', 'rad/s2'],
    plausible: [least, most],
  });

export const angularSpeed = (least: string, most: string): z.ZodType =>
  quantity({
    dimension: 'angular-speed',
    units: ['rpm', 'rev/s', 'deg/s', 'deg/min'],
    plausible: [least, most],
  });

const CURRENT_UNITS = ['A', 'mA', 'uA'];

export const current = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'current', units: CURRENT_UNITS, plausible: [least, most] });

/** A current small enough that people state it in milliamperes. */
export const smallCurrent = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'current', units: ['mA', 'A', 'uA'], plausible: [least, most] });

export const force = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'force', units: ['N', 'kN'], plausible: [least, most] });

export const frequency = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'frequency', units: ['Hz', 'kHz', 'MHz'], plausible: [least, most] });

/** A rate high enough that people state it in kilohertz. */
export const pulseRate = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'frequency', units: ['kHz', 'Hz', 'MHz'], plausible: [least, most] });

export const inductance = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'inductance', units: ['mH', 'uH', 'H'], plausible: [least, most] });

export const inertia = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'inertia', units: ['kg.m2', 'kg.cm2', 'g.cm2'], plausible: [least, most] });

export const length = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'length', units: ['mm', 'm', 'in', 'um'], plausible: [least, most] });

/** A length of cable, which people state in metres. */
export const cableLength = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'length', units: ['m', 'mm', 'in'], plausible: [least, most] });

/** A move or a play: a length on a linear axis, an angle on a rotary one. The bounds are those of the length. */
export const move = (least: string, most: string): z.ZodType =>
  quantity({ dimension: ['length', 'angle'], units: ['mm', 'deg', 'in'], plausible: [least, most] });

export const mass = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'mass', units: ['kg', 'g'], plausible: [least, most] });

/** Pulses for a length of a linear axis or an angle of a rotary one. The bounds are those of the length. */
export const perTravel = (least: string, most: string): z.ZodType =>
  quantity({
    dimension: ['per-length', 'per-angle'],
    units: ['/mm', '/deg', '/in'],
    plausible: [least, most],
  });

export const power = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'power', units: ['W', 'kW', 'mW'], plausible: [least, most] });

export const resistance = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'resistance', units: ['ohm', 'kohm', 'Mohm', 'mohm'], plausible: [least, most] });

export const share = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'share', units: ['%'], plausible: [least, most] });

export const speed = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'speed', units: ['mm/min', 'mm/s', 'm/min', 'in/min'], plausible: [least, most] });

/** A time of mechanical things. */
export const duration = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'time', units: ['ms', 's', 'us'], plausible: [least, most] });

/** A time of signals. */
export const signalTime = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'time', units: ['us', 'ns', 'ms'], plausible: [least, most] });

export const torque = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'torque', units: ['N.m', 'N.cm', 'mN.m'], plausible: [least, most] });

const VOLTAGE_UNITS = ['V', 'mV', 'kV'];

export const voltage = (least: string, most: string): z.ZodType =>
  quantity({ dimension: 'voltage', units: VOLTAGE_UNITS, plausible: [least, most] });

export const voltageSpan = (least: string, most: string): z.ZodType =>
  span({ dimension: 'voltage', units: VOLTAGE_UNITS, plausible: [least, most] });
