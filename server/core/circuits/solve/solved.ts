import type { Machine } from '../../model/resolve.ts';
import { fact, keepIf } from '../../reuse/fact.ts';
import { wholeOf } from '../../reuse/tracked-map.ts';
import type { FileId } from '../../world.ts';
import { layBoard } from './board.ts';
import { findChanges } from './changes.ts';
import { type FaultRow, type Faults, findFaults, type InputFaults, withInput } from './faults.ts';
import { type SolvedInput, type SolvedMachine, solveMachine } from './inputs.ts';
import { hasSameCircuits } from './same.ts';
import type { Wired } from './wired.ts';

/** A machine's circuits in all states and with all single faults. */
interface SolvedCircuits {
  readonly solved: SolvedMachine;
  readonly faults: readonly InputFaults[];
}

/** Circuits with all that the next version can take over. */
interface Version {
  readonly machine: Wired;
  readonly solved: SolvedMachine;
  readonly faults: Faults;
}

/** How many machines are remembered: one that is edited, and one beside it. */
const MOST_MACHINES = 2;

/** The last version of each of the machines that were solved last. Whatever is tried on a copy of one starts from there. */
const lastOf = new Map<FileId, Version>();

function remember(file: FileId, version: Version): void {
  lastOf.delete(file);
  lastOf.set(file, version);
  for (const [oldest] of lastOf) if (lastOf.size > MOST_MACHINES) lastOf.delete(oldest);
}

/** For tests: does something as if nothing had been solved before, and leaves what was solved before as it was. */
export function solveApart<T>(act: () => T): T {
  const known = [...lastOf];
  lastOf.clear();
  try {
    return act();
  } finally {
    lastOf.clear();
    for (const [file, version] of known) lastOf.set(file, version);
  }
}

/**
 * Solves the circuits of a machine, once for each version of it, whoever asks. What the edit between two versions did
 * not touch is taken over; the property that this makes no difference is held by a test.
 */
export const circuitsOf = fact(
  'machine',
  ({ file, parts, links }: Machine): SolvedCircuits => solveCircuits({ file, parts: wholeOf(parts), links }),
  keepIf((before, now) => before.solved === now.solved && before.faults === now.faults),
);

/** What each input and coil sees in all states. Those that an edit did not touch are the same objects as before. */
export const inputsOf = fact('machine', (machine: Machine) => circuitsOf(machine).solved.inputs);

/** What holds the rails, and what is joined to them that should not be; the same object while that is the same. */
export const railsOf = fact('machine', (machine: Machine) => circuitsOf(machine).solved.board.rails);

/** What each single fault does to each input; of an input that an edit did not touch it is the same object as before. */
export const faultsOf = fact('machine', (machine: Machine) => circuitsOf(machine).faults);

function solveCircuits(machine: Wired): SolvedCircuits {
  const before = lastOf.get(machine.file);
  const isSame = before !== undefined && hasSameCircuits(before.machine, machine);
  // What was known is changed in place: should that fail halfway, nothing is taken over from it.
  lastOf.delete(machine.file);
  const version = isSame ? before : solveVersion(machine, before);
  const circuits = isSame
    ? presentIn(machine, version)
    : { solved: version.solved, faults: version.faults.all };
  remember(machine.file, version);
  return circuits;
}

function solveVersion(machine: Wired, before: Version | undefined): Version {
  const isUsable = before?.solved.isComplete && before.faults.isComplete;
  const board = layBoard(machine, isUsable ? before.solved.board : undefined);
  const changes = isUsable ? findChanges(before.solved.board, board) : undefined;
  if (!before || !changes) {
    const solved = solveMachine(machine, board);
    return { machine, solved, faults: findFaults(solved) };
  }
  const solved = solveMachine(machine, board, { solved: before.solved, changes });
  return {
    machine,
    solved,
    faults: findFaults(solved, { solved: before.solved, faults: before.faults, changes }),
  };
}

/** Puts the parts of the new version in the place of those of the old one, whose places in the text may have moved. */
function presentIn(machine: Wired, { solved, faults: { all } }: Version): SolvedCircuits {
  const isMoved = solved.inputs.some(({ at }) => machine.parts.get(at.part.name) !== at.part);
  if (!isMoved) return { solved, faults: all };
  const moved = new Map(
    solved.inputs.map((input): [SolvedInput, SolvedInput] => {
      const part = machine.parts.get(input.at.part.name) ?? input.at.part;
      return [input, part === input.at.part ? input : { ...input, at: { part, circuit: input.at.circuit } }];
    }),
  );
  return {
    solved: { ...solved, inputs: [...moved.values()] },
    faults: all.map((found) => withInput(found, moved.get(found.input) ?? found.input)),
  };
}

/** What is worth telling first: what is not seen before what is seen later, before what is seen at once. */
const GRAVITY = ['harmless', 'unknown', 'at-once', 'next-use', 'not-seen'] as const;

/** The gravest of some faults; the first among equals. */
export function gravest(rows: readonly FaultRow[]): FaultRow | undefined {
  let worst: FaultRow | undefined;
  for (const row of rows) {
    if (!worst || GRAVITY.indexOf(row.verdict) > GRAVITY.indexOf(worst.verdict)) worst = row;
  }
  return worst;
}
