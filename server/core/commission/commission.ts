import type { MachineAnalysis } from '../analysis.ts';
import { inEnglish } from '../language/say.ts';
import { axisSteps } from './axis-steps.ts';
import { inputSteps, stopSteps } from './input-steps.ts';
import { earthSteps, isolatedSteps, supplySteps } from './power-steps.ts';
import { settingSteps } from './setting-steps.ts';
import type { Step } from './step.ts';
import { handwheelSteps, spindleSteps } from './turning-steps.ts';

const kept = new WeakMap<MachineAnalysis, readonly Step[]>();

/** What makes the steps of a stage, knowing those of the stages before. The order is that of the dependences. */
const MAKERS: readonly ((analysis: MachineAnalysis, before: readonly Step[]) => readonly Step[])[] = [
  isolatedSteps,
  earthSteps,
  supplySteps,
  stopSteps,
  inputSteps,
  settingSteps,
  axisSteps,
  handwheelSteps,
  spindleSteps,
];

/**
 * How this machine is brought up: every step in a safe order, each after those that it depends on, with its terminals,
 * what to expect and what to change if it comes out wrong. Worked out once for each analysis.
 */
export function listSteps(analysis: MachineAnalysis): readonly Step[] {
  let steps = kept.get(analysis);
  if (!steps) {
    const made = makeSteps(analysis);
    const written = inEnglish(made, () => makeSteps(analysis));
    steps = made.map((step, index) => ({ ...step, ...asWritten(written[index] ?? step) }));
    kept.set(analysis, steps);
  }
  return steps;
}

function makeSteps(analysis: MachineAnalysis): Step[] {
  const made: Step[] = [];
  for (const make of MAKERS) made.push(...make(analysis, made));
  return made;
}

function asWritten({ record, recorded }: Step): Pick<Step, 'record' | 'recorded'> {
  return { record, recorded };
}
