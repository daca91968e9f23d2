import type { MachineAnalysis } from '../../analysis.ts';
import type { FaultRow } from '../../circuits/solve/faults.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import type { Link } from '../../model/wiring.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { breaksOf, isWired } from '../../values/circuits.ts';
import { diagnose } from './diagnose.ts';
import { canBeJudged } from './judgeable.ts';

/** An input whose broken wire goes unnoticed, with the break that shows it. */
export interface Unnoticed {
  readonly input: SolvedInput;
  readonly row: FaultRow;
  readonly link: Link;
}

/** These are there for the moment in which something goes wrong; nobody tries them out before. */
const GUARDS: ReadonlySet<string> = new Set(['limit', 'home', 'emergency-stop']);

/** These must let go when a wire of theirs breaks. */
const DRIVES: ReadonlySet<string> = new Set(['enable', 'spindle run', 'spindle reverse']);

/** Limit, home and emergency stop inputs that read with a broken wire as if nothing had happened. */
export function unnoticedBreaks(analysis: MachineAnalysis): readonly Unnoticed[] {
  return canBeJudged(analysis) ? unnoticedAt(analysis).flatMap((each) => each ?? []) : [];
}

/** Enable and run inputs that act while a wire of theirs is broken, whatever the controller wants. */
export function stayingOn(analysis: MachineAnalysis): readonly Unnoticed[] {
  return canBeJudged(analysis) ? stayingOnAt(analysis).flatMap((each) => each ?? []) : [];
}

const unnoticedAt = breaksWhere(GUARDS, ({ verdict }) => verdict === 'not-seen');

const stayingOnAt = breaksWhere(DRIVES, ({ input, rest, operated }) =>
  [rest, operated].every(
    ({ level }) =>
      level !== 'uncertain' && level !== 'unknown' && (level === 'on') === input.sense.actsWhenOn,
  ),
);

/** Makes the question for the first break of each input's wires that is bad, where the input is one of some purposes. */
function breaksWhere(purposes: ReadonlySet<string>, isBad: (row: FaultRow) => boolean) {
  return factOver(
    'analysis',
    ({ machine }: MachineAnalysis) => inputsOf(machine),
    (analysis, input): Unnoticed | undefined => {
      if (!purposes.has(input.at.circuit.does?.word ?? '')) return undefined;
      const row = breaksOf.get(analysis.machine, input)?.find(isBad);
      if (row?.fault.kind !== 'broken' || !isWired(analysis.nets, input)) return undefined;
      const isWrong = wrongInputs(analysis).has(input) || !canBeJudged(analysis, input);
      return isWrong ? undefined : { input, row, link: row.fault.link };
    },
  );
}

/** The inputs of which something graver is said. */
const wrongInputs = fact(
  'analysis',
  (analysis: MachineAnalysis): ReadonlySet<SolvedInput> =>
    new Set(diagnose(analysis).flatMap(({ input, kind }) => (kind === 'noise-margin' ? [] : [input]))),
);
