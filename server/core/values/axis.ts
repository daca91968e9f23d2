import { type Nets, netsOf } from '../circuits/nets.ts';
import type { AxisEntry } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { readCarrier } from './axis-carrier.ts';
import { deriveFeed } from './axis-feed.ts';
import { deriveLoad } from './axis-load.ts';
import { deriveMotor } from './axis-motor.ts';
import { deriveMoves } from './axis-move.ts';
import { axisParts } from './axis-parts.ts';
import { deriveScale } from './axis-scale.ts';
import { deriveScrew } from './axis-screw.ts';
import { deriveTiming } from './axis-timing.ts';
import { deriveTorque } from './axis-torque.ts';
import type { Collector } from './collect.ts';
import { section, valuesBy } from './piece.ts';

/**
 * Every value of all axes. The voltages that reach their drives must have been worked out before. An axis of which
 * nothing changed takes over what was worked out for it.
 */
export const deriveAxes = section((machine, out) => {
  for (const name of machine.axes.keys()) deriveAxisNamed(machine, name, out);
});

const deriveAxisNamed = valuesBy<string>((machine, name, out) => {
  const axis = machine.axes.get(name);
  if (axis) deriveAxis(machine, netsOf(machine), axis, out);
});

function deriveAxis(machine: Machine, nets: Nets, axis: AxisEntry, out: Collector): void {
  const parts = axisParts(machine, axis);
  const carrier = readCarrier(parts, machine.file);
  const scale = deriveScale(machine, parts, carrier, out);
  const pulseRate = deriveTiming(machine, nets, parts, out);
  const motor = deriveMotor(machine, parts, scale.pulsesPerTurn, out);
  const needed = deriveLoad(machine, parts, carrier, out);
  const usable = deriveTorque(machine, parts, carrier, motor, needed, out);
  const screw = deriveScrew(machine, parts, carrier, out);
  deriveFeed(machine, parts, scale, carrier, { pulseRate, usable, screw }, out);
  deriveMoves(machine, parts, out);
}
