import type { MachineAnalysis } from '../../analysis.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { groupBy } from '../../group.ts';
import type { End } from '../../model/link.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { isWired } from '../../values/circuits.ts';
import { type Diagnosis, diagnose } from './diagnose.ts';
import { signalEnd } from './sights.ts';

/** The net of the side that an input may share with others: what is wrong there is wrong for all of them. */
export function sharedNet({ nets }: MachineAnalysis, input: SolvedInput): string {
  return `${input.at.part.name} ${nets.netOf(otherTerminal(input))}`;
}

/** The terminal of the side of an input that does not carry its signal. */
export function otherTerminal(input: SolvedInput): string {
  const { part, circuit } = input.at;
  return terminalId(part.name, circuit.ends[1 - signalEnd(input)]?.text ?? '');
}

/** The wire that feeds the side which some inputs share: its end at them and its end at what feeds them. */
export function feedEnd(
  { nets }: MachineAnalysis,
  inputs: readonly SolvedInput[],
): { readonly near: End; readonly far: End } | undefined {
  const parts = new Set(inputs.map(({ at }) => at.part.name));
  for (const terminal of inputs.map(otherTerminal)) {
    for (const { from, to } of nets.linksAt(terminal)) {
      const [near, far] = from.id === terminal ? [from, to] : [to, from];
      if (!parts.has(far.part)) return { near, far };
    }
  }
  return undefined;
}

/** Diagnoses that have one cause. */
export type OfOneFeed = readonly [Diagnosis, ...Diagnosis[]];

/**
 * Puts diagnoses together that have one cause: those of isolated inputs which share a side, where none of the others on
 * that side is right; of all parts, or else of one. All others stand alone.
 */
export function groupByFeed(
  analysis: MachineAnalysis,
  diagnoses: readonly Diagnosis[],
): readonly OfOneFeed[] {
  if (diagnoses.length === 0) return [];
  const diagnosed = new Set(diagnoses.map(({ input }) => input));
  const right = new Set(
    inputsOf(analysis.machine).flatMap((input) =>
      diagnosed.has(input) || !isWired(analysis.nets, input) ? [] : sidesOf(analysis, input),
    ),
  );
  const keyOf = (diagnosis: Diagnosis): string | Diagnosis =>
    sidesOf(analysis, diagnosis.input).find((side) => !right.has(side)) ?? diagnosis;
  return [...groupBy(diagnoses, keyOf).values()].flatMap(([first, ...others]) =>
    first ? [[first, ...others] as const] : [],
  );
}

/**
 * The side of an isolated input that it may share, by which of its poles it is and where that leads: for all parts, and
 * for its own. Empty for other inputs, which have their common inside.
 */
function sidesOf(analysis: MachineAnalysis, input: SolvedInput): readonly string[] {
  if (input.at.circuit.kind !== 'opto-in') return [];
  const side = `${1 - signalEnd(input)} ${analysis.nets.netOf(otherTerminal(input))}`;
  return [side, `${side} ${input.at.part.name}`];
}

/** The kinds of what an isolated input does not see on a side that is wired to the wrong pole. */
type Stuck = Extract<Diagnosis['kind'], 'never-on' | 'opto-reversed'>;

const STUCK: ReadonlySet<Diagnosis['kind']> = new Set<Stuck>(['never-on', 'opto-reversed']);

/**
 * The inputs that nothing turns on, those of one cause together. Where a shared side is at the wrong pole, contacts that are
 * closed leave no voltage, and outputs turn it round: such a group is told as what never turns on.
 */
export function stuckByFeed(analysis: MachineAnalysis, toldAs: Stuck): readonly OfOneFeed[] {
  const stuck = diagnose(analysis).filter(({ kind }) => STUCK.has(kind));
  return groupByFeed(analysis, stuck).filter(
    (group) =>
      (group.every(({ kind }) => kind === 'opto-reversed') ? 'opto-reversed' : 'never-on') === toldAs,
  );
}
