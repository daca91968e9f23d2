import type { Nets } from '../circuits/nets.ts';
import { circuitsDoing, isOutput } from '../circuits/signals.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import type { AxisEntry, Part } from '../model/machine.ts';
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
import { type Kept, keepUnder } from './keep.ts';

/** By the layout of the wiring, which stays the same while nothing is joined otherwise. */
const kept = new WeakMap<object, Map<string, Kept>>();

/**
 * Every value of all axes. The voltages that reach their drives must have been worked out before. An axis whose own
 * entry, parts and controller did not change takes over what was worked out for it.
 */
export function deriveAxes(machine: Machine, nets: Nets, out: Collector): void {
  const { layout } = circuitsOf(machine).solved.board;
  const before = kept.get(layout) ?? new Map<string, Kept>();
  kept.set(layout, before);
  const pulsing = [...machine.parts.values()].filter((part) => circuitsDoing(part, 'pulse').some(isOutput));
  for (const axis of machine.axes.values()) {
    const read = readBy(machine, axis, pulsing, out);
    keepUnder(before, axis.name, read, out, () => deriveAxis(machine, nets, axis, out));
  }
}

/** What the values of an axis are read from, beside the wiring. */
function readBy(machine: Machine, axis: AxisEntry, pulsing: readonly Part[], out: Collector): unknown[] {
  const { actuators } = axisParts(machine, axis);
  const parts = [...actuators.flatMap(({ drive, motor }) => [drive, motor]), ...pulsing];
  const read: unknown[] = [axis.key, axis.fields.node];
  for (const part of parts) {
    const supply = part && out.get(`parts.${part.name}.supply-voltage`);
    read.push(part?.key, part?.node, part?.sheet, supply?.si, supply?.inputs[0]?.at);
  }
  return read;
}

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
