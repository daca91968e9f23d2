import type { Nets } from '../circuits/nets.ts';
import { circuitsDoing, isOutput } from '../circuits/signals.ts';
import type { Board } from '../circuits/solve/board.ts';
import { isSameFingerprint } from '../circuits/solve/same.ts';
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
import type { Derived, Missing } from './derived.ts';

/** What one axis was worked out from, and what came of it. */
interface Kept {
  readonly read: readonly unknown[];
  readonly derived: readonly Derived[];
  readonly missing: readonly Missing[];
}

/** By the board, which stays the same while wiring, sheets and electrical settings do. */
const kept = new WeakMap<Board, Map<string, Kept>>();

/**
 * Every value of all axes. The voltages that reach their drives must have been worked out before. An axis whose own
 * entry, parts and controller did not change takes over what was worked out for it.
 */
export function deriveAxes(machine: Machine, nets: Nets, out: Collector): void {
  const { board } = circuitsOf(machine).solved;
  const before = kept.get(board) ?? new Map<string, Kept>();
  kept.set(board, before);
  const pulsing = [...machine.parts.values()].filter((part) => circuitsDoing(part, 'pulse').some(isOutput));
  for (const axis of machine.axes.values()) {
    const read = readBy(machine, axis, pulsing, out);
    const known = before.get(axis.name);
    if (known && isSameFingerprint(known.read, read)) {
      out.keep(known.derived, known.missing);
      continue;
    }
    const [derivedFrom, missingFrom] = [out.derived.length, out.missing.length];
    deriveAxis(machine, nets, axis, out);
    before.set(axis.name, {
      read,
      derived: out.derived.slice(derivedFrom),
      missing: out.missing.slice(missingFrom),
    });
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
