import type { MachineAnalysis } from '../../analysis.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { groupBy } from '../../group.ts';
import type { End } from '../../model/link.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { isWired } from '../../values/circuits.ts';
import type { Diagnosis } from './diagnose.ts';
import { signalEnd } from './sights.ts';

/** The net of the side that an input may share with others: what is wrong there is wrong for all of them. */
export function sharedNet({ nets }: MachineAnalysis, input: SolvedInput): string {
  return `${input.at.part.name} ${nets.netOf(otherTerminal(input))}`;
}

function otherTerminal(input: SolvedInput): string {
  const { part, circuit } = input.at;
  return terminalId(part.name, circuit.ends[1 - signalEnd(input)]?.text ?? '');
}

/** The wire that feeds the side which some inputs share: its end at them and its end at the supply. */
export function feedEnd(
  { nets }: MachineAnalysis,
  inputs: readonly SolvedInput[],
): { readonly near: End; readonly far: End } | undefined {
  for (const terminal of inputs.map(otherTerminal)) {
    for (const { from, to } of nets.linksAt(terminal)) {
      const [near, far] = from.id === terminal ? [from, to] : [to, from];
      if (far.part !== near.part) return { near, far };
    }
  }
  return undefined;
}

/**
 * Puts diagnoses together that have one cause: those of isolated inputs which share a side, where none of the others on
 * that side is right. All others stand alone.
 */
export function groupByFeed(
  analysis: MachineAnalysis,
  diagnoses: readonly Diagnosis[],
): readonly (readonly [Diagnosis, ...Diagnosis[]])[] {
  const diagnosed = new Set(diagnoses.map(({ input }) => input));
  const keyOf = (diagnosis: Diagnosis): string | Diagnosis => {
    if (diagnosis.input.at.circuit.kind !== 'opto-in') return diagnosis;
    const net = sharedNet(analysis, diagnosis.input);
    const isRightElsewhere = inputsOf(analysis.machine).some(
      (input) =>
        !diagnosed.has(input) &&
        input.at.part.name === diagnosis.input.at.part.name &&
        isWired(analysis.nets, input) &&
        sharedNet(analysis, input) === net,
    );
    return isRightElsewhere ? diagnosis : net;
  };
  return [...groupBy(diagnoses, keyOf).values()].flatMap(([first, ...others]) =>
    first ? [[first, ...others] as const] : [],
  );
}
