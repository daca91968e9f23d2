import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { feedOfSpin } from '../motion/handwheel.ts';
import { DIMENSIONS, sameDimension } from '../units/index.ts';
import { type Collector, factInput, inputOf, listNeeds } from './collect.ts';
import { section } from './piece.ts';

const MULTIPLIERS = [1, 10, 100] as const;

/** The feeds that a quick hand on the wheel asks for at each step. Nothing without a handwheel. */
export const deriveHandwheel = section(addHandwheel);

function addHandwheel(machine: Machine, out: Collector): void {
  const fields = machine.fields.child('handwheel');
  if (!fields.node) return;
  const name = fields.text('part')?.value;
  const wheel = name === undefined ? undefined : machine.parts.get(name);
  const detents = factInput(later`detents`, wheel, 'detents');
  const stepGiven = fields.quantity('step');
  const spinGiven = fields.quantity('spin');
  if (!detents || !stepGiven || !spinGiven) {
    const needs = listNeeds([
      [detents, say`the wheel's detents`],
      [stepGiven, say`the step of one detent`],
      [spinGiven, say`how fast the wheel is turned`],
    ]);
    for (const multiplier of MULTIPLIERS) out.lack(`handwheel.feed-at-${multiplier}`, needs);
    return;
  }
  const step = inputOf(later`step`, stepGiven, machine.file);
  const spin = inputOf(later`spin`, spinGiven, machine.file);
  const isAngle = sameDimension(stepGiven.value.unit.dimension, DIMENSIONS.angle);
  for (const multiplier of MULTIPLIERS) {
    out.add({
      address: `handwheel.feed-at-${multiplier}`,
      unit: isAngle ? 'rpm' : 'mm/min',
      formula: `{spin} × {detents} × {step}${multiplier === 1 ? '' : ` × ${multiplier}`}`,
      inputs: [spin, detents, step],
      si: feedOfSpin(spin.value, detents.value, step.value, multiplier),
      source: say`arithmetic of the wheel: one step for each detent`,
    });
  }
}
