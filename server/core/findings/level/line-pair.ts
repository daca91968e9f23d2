import { say } from '../../language/say.ts';
import type { Data } from '../../problem.ts';
import type { Diagnosis } from '../common/diagnose.ts';

/** What a finding about a level keeps in mind of an input that is driven by an output with two opposite lines. */
export function pairData({ input }: Diagnosis): Data {
  const { elements } = input.solution.circuit.board;
  const isFromPair = input.operations.some(({ actor }) =>
    actor.elements.some((place) => elements[place]?.at.circuit.kind === 'line-out'),
  );
  return isFromPair ? { pair: 'yes' } : {};
}

/** What to do about such an input, whose voltage cannot be raised; otherwise what is to be done in general. */
export function adviseOnPair(data: Data, general: string): string {
  return data.pair === undefined
    ? general
    : say`Its signal comes as a pair of lines, whose voltage is what it is. Use a part with line receivers, or an output that switches the voltage of this input.`;
}
