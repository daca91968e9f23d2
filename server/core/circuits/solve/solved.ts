import type { Machine } from '../../model/resolve.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Sheet } from '../../model/sheet.ts';
import { type FaultRow, findFaults } from './faults.ts';
import { type SolvedInput, type SolvedMachine, solveMachine } from './inputs.ts';
import { fingerprintOf, isSameFingerprint } from './same.ts';

/** A machine's circuits in all states and with all single faults. */
interface SolvedCircuits {
  readonly solved: SolvedMachine;
  readonly faults: readonly FaultRow[];
}

interface Kept {
  readonly fingerprint: readonly unknown[];
  readonly circuits: SolvedCircuits;
}

const byMachine = new WeakMap<Machine, SolvedCircuits>();

/** The last result for machines that begin with a part of this sheet; it goes with the sheet. */
const bySheet = new WeakMap<Sheet, Kept>();

/**
 * Solves the circuits of a machine, once for each version of it, whoever asks. A version whose wiring, sheets and
 * electrical settings are those of the version before takes over its results.
 */
export function circuitsOf(machine: Machine): SolvedCircuits {
  const known = byMachine.get(machine);
  if (known) return known;
  const sheet = partsWithSheets(machine)[0]?.sheet;
  const before = sheet && bySheet.get(sheet);
  const fingerprint = fingerprintOf(machine);
  const isSame = before !== undefined && isSameFingerprint(before.fingerprint, fingerprint);
  const circuits = isSame ? takeOver(machine, before.circuits) : solveAll(machine);
  byMachine.set(machine, circuits);
  if (sheet) bySheet.set(sheet, { fingerprint, circuits });
  return circuits;
}

function solveAll(machine: Machine): SolvedCircuits {
  const solved = solveMachine(machine);
  return { solved, faults: findFaults(solved) };
}

/** Puts the parts of the new version in the place of those of the old one, whose places in the text may have moved. */
function takeOver(machine: Machine, { solved, faults }: SolvedCircuits): SolvedCircuits {
  const isMoved = solved.inputs.some(({ at }) => machine.parts.get(at.part.name) !== at.part);
  if (!isMoved) return { solved, faults };
  const moved = new Map(
    solved.inputs.map((input): [SolvedInput, SolvedInput] => {
      const part = machine.parts.get(input.at.part.name) ?? input.at.part;
      return [input, { ...input, at: { part, circuit: input.at.circuit } }];
    }),
  );
  return {
    solved: { ...solved, inputs: [...moved.values()] },
    faults: faults.map((row) => ({ ...row, input: moved.get(row.input) ?? row.input })),
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
