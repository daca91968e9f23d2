import type { MachineAnalysis } from '../../analysis.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { fact } from '../../reuse/fact.ts';
import { mapEach } from '../../reuse/map-each.ts';
import { canBeJudged } from '../common/judgeable.ts';
import { SWITCH_CLASSES, type SwitchEntry, switchEntries } from './purposes.ts';

/** A switch of an axis that operates an input for something else, or whose input something else operates. */
export interface Mixup {
  readonly entry: SwitchEntry;
  /** The input that is wired to the wrong switch. */
  readonly input: SolvedInput;
  /** What operates that input. */
  readonly actor: string;
  /** Other mixups that share a switch or an input with this one: the other half of an exchange. */
  readonly others: readonly Mixup[];
}

/** Switches whose wires go to the input of another axis or end, as the axes tell what each of them is for. */
export const switchMixups = fact('analysis', (analysis: MachineAnalysis): readonly Mixup[] => {
  return canBeJudged(analysis)
    ? join(find(analysis).filter(({ input }) => canBeJudged(analysis, input)))
    : [];
});

const WORDS: ReadonlySet<string> = new Set(['limit', 'home']);

function find(analysis: MachineAnalysis): Mixup[] {
  // A name that is no switch at all is told as such.
  const entries = switchEntries(analysis).filter(({ name }) =>
    SWITCH_CLASSES.has(analysis.machine.parts.get(name.text)?.sheet?.partClass ?? ''),
  );
  const byPart = new Map<string, Set<string>>();
  for (const { name, does } of entries) {
    const there = byPart.get(name.text) ?? new Set();
    there.add(does);
    byPart.set(name.text, there);
  }
  const wired = operatedInputs(inputsOf(analysis.machine)).filter((input) => input !== undefined);
  return entries.flatMap((entry): Mixup[] => {
    const part = entry.name.text;
    // A name that is no switch's is misspelt or a mistake of its own.
    if (!SWITCH_CLASSES.has(analysis.machine.parts.get(part)?.sheet?.partClass ?? '')) return [];
    if (wired.some(({ does, parts }) => does === entry.does && parts.has(part))) return [];
    const wrong =
      // Something else stands where it should be, or its wire goes where it is not meant to go.
      wired.find(({ does, parts }) => does === entry.does && parts.size > 0) ??
      wired.find(({ does, parts }) => parts.has(part) && !byPart.get(part)?.has(does));
    const [actor] = wrong?.parts ?? [];
    return wrong && actor !== undefined ? [{ entry, input: wrong.input, actor, others: [] }] : [];
  });
}

/** An input of an axis that something operates. */
interface Operated {
  readonly input: SolvedInput;
  readonly does: string;
  /** Several switches on one input operate it together, and each of them may be there for it. */
  readonly parts: ReadonlySet<string>;
}

const operatedInputs = mapEach((input: SolvedInput): Operated | undefined => {
  const { circuit } = input.at;
  const does = WORDS.has(circuit.does?.word ?? '') ? circuit.figures.text('does')?.value : undefined;
  if (does === undefined || input.operations.length === 0) return undefined;
  return { input, does, parts: new Set(input.operations.map(({ actor }) => actor.part)) };
});

/** An exchange of two switches is one mistake. */
function join(mixups: readonly Mixup[]): Mixup[] {
  const left = [...mixups];
  const joined: Mixup[] = [];
  for (let first = left.shift(); first; first = left.shift()) {
    const others: Mixup[] = [];
    const names = new Set([first.entry.name.text, first.actor, first.entry.does, doesOf(first)]);
    for (let index = 0; index < left.length; ) {
      const other = left[index];
      if (
        other &&
        [other.entry.name.text, other.actor, other.entry.does, doesOf(other)].some((name) => names.has(name))
      ) {
        for (const name of [other.entry.name.text, other.actor, other.entry.does, doesOf(other)])
          names.add(name);
        others.push(other);
        left.splice(index, 1);
        index = 0;
      } else index++;
    }
    joined.push({ ...first, others });
  }
  return joined;
}

function doesOf({ input }: Mixup): string {
  return input.at.circuit.figures.text('does')?.value ?? '';
}

/** Whether an input is part of a mixup: that it is in use or not, wired or not, follows from that. */
export function isMixedUp(analysis: MachineAnalysis, does: string): boolean {
  return switchMixups(analysis).some((mixup) =>
    [mixup, ...mixup.others].some((each) => each.entry.does === does || doesOf(each) === does),
  );
}
