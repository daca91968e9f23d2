import type { Machine } from '../../model/resolve.ts';
import { type FaultRow, findFaults } from './faults.ts';
import { type SolvedMachine, solveMachine } from './inputs.ts';

/** A machine's circuits in all states and with all single faults. */
export interface SolvedCircuits {
  readonly solved: SolvedMachine;
  readonly faults: readonly FaultRow[];
}

const kept = new WeakMap<Machine, SolvedCircuits>();

/** Solves the circuits of a machine, once for each version of it, whoever asks. */
export function circuitsOf(machine: Machine): SolvedCircuits {
  let circuits = kept.get(machine);
  if (!circuits) {
    const solved = solveMachine(machine);
    circuits = { solved, faults: findFaults(solved) };
    kept.set(machine, circuits);
  }
  return circuits;
}

/** What each fault kind is worth telling first: what is not seen before what is seen later, before what is seen at once. */
const GRAVITY = ['harmless', 'unknown', 'at-once', 'next-use', 'not-seen'] as const;

/** The gravest of some faults; the first among equals. */
export function gravest(rows: readonly FaultRow[]): FaultRow | undefined {
  let worst: FaultRow | undefined;
  for (const row of rows) {
    if (!worst || GRAVITY.indexOf(row.verdict) > GRAVITY.indexOf(worst.verdict)) worst = row;
  }
  return worst;
}
