import { expectedText, type Stage, type Step } from './step.ts';

type Optional = 'terminals' | 'settings' | 'cautions' | 'after' | 'record' | 'expected';
type Given = Omit<Step, Optional | 'recorded'> & Partial<Pick<Step, Optional>>;

/** A step with what most have filled in: nothing in particular, and a record of the step by its name. */
export function makeStep(step: Given): Step {
  const expected = step.expected ?? [];
  const words = expectedText({ expected });
  return {
    terminals: [],
    settings: [],
    cautions: [],
    after: [],
    record: `{ date: ?, step: ${step.id}${words === '' ? '' : `, expected: "${words.replaceAll('"', "'")}"`}, seen: "?" }`,
    ...step,
    expected,
    recorded: words,
  };
}

/** The ids of the steps of some stages. */
export function idsOf(steps: readonly Step[], ...stages: readonly Stage[]): string[] {
  return steps.filter(({ stage }) => stages.includes(stage)).map(({ id }) => id);
}
