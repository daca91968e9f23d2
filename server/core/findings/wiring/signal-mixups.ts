import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { fact } from '../../reuse/fact.ts';
import { mapEach } from '../../reuse/map-each.ts';
import type { Scalar } from '../../syntax/node.ts';
import { canBeJudged } from '../common/judgeable.ts';

/** An input of a drive that an output for another signal, or for another axis, drives. */
export interface SignalMixup {
  readonly input: SolvedInput;
  readonly output: CircuitAt;
  /** The axis that the drive moves, and where it is named there; undefined where only the signal is another. */
  readonly axis: { readonly name: string; readonly drive: Scalar } | undefined;
}

/** Inputs of drives whose wires come from an output that is there for something else: one list for each drive. */
export const signalMixups = fact('analysis', (analysis: MachineAnalysis): readonly SignalMixup[][] => {
  if (!canBeJudged(analysis)) return [];
  const byDrive = new Map<string, SignalMixup[]>();
  for (const driven of readDriven(inputsOf(analysis.machine))) {
    const mixup = driven && judge(analysis, driven);
    if (!mixup || !canBeJudged(analysis, driven.input)) continue;
    const drive = driven.input.at.part.name;
    const there = byDrive.get(drive);
    if (there) there.push(mixup);
    else byDrive.set(drive, [mixup]);
  }
  return [...byDrive.values()];
});

const SIGNALS: ReadonlySet<string> = new Set(['pulse', 'direction', 'enable']);

/** An input of a drive, and the outputs for such signals that drive it. */
interface Driven {
  readonly input: SolvedInput;
  readonly word: string;
  readonly outputs: readonly CircuitAt[];
}

const readDriven = mapEach((input: SolvedInput): Driven | undefined => {
  const word = input.at.circuit.does?.word ?? '';
  if (!SIGNALS.has(word)) return undefined;
  const { elements } = input.solution.circuit.board;
  const outputs = input.operations.flatMap(({ actor }) =>
    actor.mover === 'output'
      ? actor.elements.flatMap((place) => {
          const at = elements[place]?.at;
          return at && SIGNALS.has(at.circuit.does?.word ?? '') ? [at] : [];
        })
      : [],
  );
  return outputs.length > 0 ? { input, word, outputs } : undefined;
});

function judge({ machine }: MachineAnalysis, { input, word, outputs }: Driven): SignalMixup | undefined {
  const same = outputs.filter(({ circuit }) => circuit.does?.word === word);
  const [first] = outputs;
  if (!first) return undefined;
  if (same.length === 0) return { input, output: first, axis: undefined };
  // One enable often serves all drives.
  if (word === 'enable') return undefined;
  for (const { name, drives } of machine.axes.values()) {
    const drive = drives.find(({ text }) => text === input.at.part.name);
    if (!drive) continue;
    const [other] = same;
    const others = same.flatMap(({ circuit }) => circuit.does?.axis ?? []);
    // An output for an axis that the machine does not have may follow another one: the second motor of a gantry.
    if (
      other &&
      others.length === same.length &&
      others.every((each) => each !== name && machine.axes.has(each))
    )
      return { input, output: other, axis: { name, drive } };
  }
  return undefined;
}

/** Whether an axis names a drive that gets the signals of another one: what it makes of its motor follows from that. */
export function isDriveMixedUp(analysis: MachineAnalysis, axis: string, drive: string): boolean {
  return signalMixups(analysis).some((mixups) =>
    mixups.some((each) => each.axis?.name === axis && each.axis.drive.text === drive),
  );
}
