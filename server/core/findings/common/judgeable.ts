import type { MachineAnalysis } from '../../analysis.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { MAINS } from '../../model/resolve.ts';
import { keyedInMeaning, settingsMeaning } from '../../model/settings.ts';
import { railConflicts, suppliesInConflict, switchedShorts } from '../wiring/rail-conflicts.ts';
import { badlyFed, hangsOnWrongSupply } from './badly-fed.ts';
import { isAnyBlockBroken, isFaulty, isPartInDoubt } from './held-back.ts';
import { impossibleFigures } from './impossible.ts';

/**
 * Whether what an input sees can be judged: not while the text is being typed, while a link meant for it is misspelt,
 * while a part of its circuit has no sheet, or while a setting that it depends on is at fault.
 */
export function canBeJudged(analysis: MachineAnalysis, input?: SolvedInput): boolean {
  if (isAnyBlockBroken(analysis)) return false;
  if (!input) return true;
  const { board } = input.solution.circuit;
  if (isOnConflict(analysis, input) || isOnShort(analysis, input) || hasImpossibleFigure(input)) return false;
  const parts = new Set<string>();
  for (const node of input.group.nodes) {
    for (const terminal of board.terminalsOn(node)) parts.add(partOf(board.conductors.terminals[terminal]));
  }
  for (const element of input.group.elements) parts.add(board.elements[element]?.at.part.name ?? '');
  if (hangsOnWrongSupply(analysis, input)) return false;
  const unfed = badlyFed(analysis);
  for (const name of parts) {
    if (unfed.has(name)) return false;
    if (isPartInDoubt(analysis, name) || (name !== MAINS && !analysis.machine.parts.get(name)?.sheet))
      return false;
    if (hasFaultyContact(analysis, name)) return false;
  }
  const { part, circuit } = input.at;
  // What a sheet says of a terminal or a circuit that it does not have was meant for another.
  if (circuit.ends.some(({ text }) => !part.sheet?.terminals.has(text))) return false;
  if (settingsMeaning(part, 'input-sense').some((each) => !part.sheet?.circuits.has(each.circuit ?? '')))
    return false;
  const sense = keyedInMeaning(analysis.machine.file, part, 'input-sense', { circuit: circuit.name });
  return !(sense && isFaulty(analysis, sense.scalar));
}

const impossible = new WeakMap<SolvedInput['group'], boolean>();

/** Whether something in the circuit of an input has a figure that no part can have. */
function hasImpossibleFigure({ group, solution }: SolvedInput): boolean {
  let isAny = impossible.get(group);
  if (isAny === undefined) {
    const { elements } = solution.circuit.board;
    const circuits = new Set(group.elements.flatMap((place) => elements[place]?.at.circuit ?? []));
    isAny = [...circuits].some((circuit) => impossibleFigures(circuit).length > 0);
    impossible.set(group, isAny);
  }
  return isAny;
}

/** Whether the circuit of an input hangs on a supply that is shorted, or joined to one of another voltage. */
function isOnConflict(analysis: MachineAnalysis, { group, solution }: SolvedInput): boolean {
  const conflicts = railConflicts(analysis);
  if (conflicts.length === 0) return false;
  const { board } = solution.circuit;
  const parts = suppliesInConflict(analysis);
  return group.elements.some((element) =>
    (board.endsOf[element] ?? []).some((end) =>
      board.supplyEndsOn.get(board.nodeOf[end] ?? -1)?.some(({ supply }) => parts.has(supply.at.part.name)),
    ),
  );
}

/** Whether the circuit of an input hangs on a supply that a contact shorts as long as nobody operates it. */
function isOnShort(analysis: MachineAnalysis, { group, solution }: SolvedInput): boolean {
  const shorts = switchedShorts(analysis).filter(({ isOperated }) => !isOperated);
  if (shorts.length === 0) return false;
  const { board } = solution.circuit;
  const nodes = new Set(
    shorts.flatMap((short) =>
      short.terminals.map((name) => board.nodeOf[board.conductors.placeOf.get(name) ?? -1]),
    ),
  );
  return group.elements.some((element) =>
    (board.endsOf[element] ?? []).some((end) => nodes.has(board.nodeOf[end])),
  );
}

function hasFaultyContact(analysis: MachineAnalysis, name: string): boolean {
  const part = analysis.machine.parts.get(name);
  const keyed = part && keyedInMeaning(analysis.machine.file, part, 'contact');
  return keyed !== undefined && isFaulty(analysis, keyed.scalar);
}

function partOf(terminal: string | undefined): string {
  return terminal?.slice(0, terminal.indexOf('.')) ?? '';
}
