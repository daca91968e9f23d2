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
  const movedBy = axesByDrive(analysis);
  const driven = readDriven(inputsOf(analysis.machine));
  // Nearly all are as they should be, so nothing is made for those.
  for (let place = 0; place < driven.length; place++) {
    const each = driven[place];
    const mixup = each && judge(analysis, each, movedBy);
    if (!mixup || !canBeJudged(analysis, mixup.input)) continue;
    const drive = mixup.input.at.part.name;
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
  /** The first of the outputs that are for the same signal; undefined where there is none. */
  readonly same: CircuitAt | undefined;
  /** The axes that those are for; undefined where one of them is for any axis, as an enable may be. */
  readonly axes: readonly string[] | undefined;
  /** The first of all outputs. */
  readonly first: CircuitAt;
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
  const [first] = outputs;
  if (!first) return undefined;
  const same = outputs.filter(({ circuit }) => circuit.does?.word === word);
  const axes = same.flatMap(({ circuit }) => circuit.does?.axis ?? []);
  // One enable often serves all drives.
  const isForAny = word === 'enable' || axes.length < same.length;
  return { input, same: same[0], axes: isForAny ? undefined : axes, first };
});

/** An axis that names a drive, and where. */
type Named = NonNullable<SignalMixup['axis']>;

/** By the name of a drive: the axes that name it; more than one only by mistake. */
function axesByDrive({ machine }: MachineAnalysis): ReadonlyMap<string, readonly Named[]> {
  const found = new Map<string, Named[]>();
  for (const { name, drives } of machine.axes.values()) {
    for (const drive of drives) {
      const there = found.get(drive.text);
      if (there) there.push({ name, drive });
      else found.set(drive.text, [{ name, drive }]);
    }
  }
  return found;
}

function judge(
  { machine }: MachineAnalysis,
  { input, same, axes, first }: Driven,
  movedBy: ReadonlyMap<string, readonly Named[]>,
): SignalMixup | undefined {
  if (!same) return { input, output: first, axis: undefined };
  const named = axes && movedBy.get(input.at.part.name);
  if (!named) return undefined;
  for (const axis of named) {
    // An output for an axis that the machine does not have may follow another one: the second motor of a gantry.
    if (axes.every((each) => each !== axis.name && machine.axes.has(each)))
      return { input, output: same, axis };
  }
  return undefined;
}

/** Whether an axis names a drive that gets the signals of another one: what it makes of its motor follows from that. */
export function isDriveMixedUp(analysis: MachineAnalysis, axis: string, drive: string): boolean {
  return signalMixups(analysis).some((mixups) =>
    mixups.some((each) => each.axis?.name === axis && each.axis.drive.text === drive),
  );
}
