import type { MachineAnalysis } from '../../analysis.ts';
import type { FaultRow } from '../../circuits/solve/faults.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { faultsOf } from '../../circuits/solve/solved.ts';
import type { Link } from '../../model/wiring.ts';
import { breaksByInput, isWired } from '../../values/circuits.ts';
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
export function unnoticedBreaks(analysis: MachineAnalysis): Unnoticed[] {
  return worstBreaks(analysis, GUARDS, ({ verdict }) => verdict === 'not-seen');
}

/** Enable and run inputs that act while a wire of theirs is broken, whatever the controller wants. */
export function stayingOn(analysis: MachineAnalysis): Unnoticed[] {
  return worstBreaks(analysis, DRIVES, ({ input, rest, operated }) =>
    [rest, operated].every(
      ({ level }) =>
        level !== 'uncertain' && level !== 'unknown' && (level === 'on') === input.sense.actsWhenOn,
    ),
  );
}

function worstBreaks(
  analysis: MachineAnalysis,
  words: ReadonlySet<string>,
  isBad: (row: FaultRow) => boolean,
): Unnoticed[] {
  if (!canBeJudged(analysis)) return [];
  const faults = faultsOf(analysis.machine);
  const wrong = new Set(
    diagnose(analysis).flatMap(({ input, kind }) => (kind === 'noise-margin' ? [] : [input])),
  );
  return [...breaksByInput(faults)].flatMap(([input, rows]) => {
    if (!words.has(input.at.circuit.does?.word ?? '') || wrong.has(input)) return [];
    if (!isWired(analysis.nets, input) || !canBeJudged(analysis, input)) return [];
    const row = rows.find(isBad);
    return row?.fault.kind === 'broken' ? [{ input, row, link: row.fault.link }] : [];
  });
}
