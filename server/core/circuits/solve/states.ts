import type { Branch } from './branch.ts';
import { type Circuit, type CircuitPart, type Composed, composeNetwork } from './circuit.ts';
import type { State } from './element.ts';
import { type Outcome, type Solved, solve } from './solver.ts';

/** Which elements are operated, by their place on the board. */
export type Operated = (element: number) => boolean;

/** A circuit solved in one state. */
export interface Solution {
  readonly circuit: Circuit;
  readonly composed: Composed;
  readonly outcome: Outcome;
  /** By part of the circuit: the state that it came to, which is `dead` for a sensor without its supply. */
  readonly states: readonly (State | 'dead')[];
}

/**
 * Solves a circuit with the chosen elements operated. Sensors that turn out to have no supply are dead, and relays whose
 * coil is in the circuit and gets too little let go; both only ever go one way, so it ends after a few rounds.
 * @param stays contacts that stay operated whatever their coil gets, as in the moment after they have moved
 */
export function solveState(circuit: Circuit, operated: Operated, stays?: Operated): Solution {
  const { elements } = circuit.board;
  const states = circuit.parts.map(({ element }): State | 'dead' =>
    operated(element) ? 'operated' : 'rest',
  );
  for (;;) {
    const composed = composeNetwork(circuit, (part, index) => branchesIn(part, states[index] ?? 'rest'));
    const outcome = solve(composed.network);
    const solution = { circuit, composed, outcome, states };
    if (outcome.kind !== 'solved') return solution;
    let changed = false;
    circuit.parts.forEach((part, index) => {
      const fed = elements[part.element]?.fed;
      if (fed && states[index] !== 'dead' && !isFed(outcome, part, fed)) {
        states[index] = 'dead';
        changed = true;
      }
    });
    if (!changed) changed = releaseRelays(circuit, outcome, states, stays);
    if (!changed) return solution;
  }
}

/** The branches of a part in a state. */
function branchesIn(part: CircuitPart, state: State | 'dead'): readonly Branch[] {
  return part[state];
}

function isFed(
  { volts, tied, classes }: Solved,
  { ends }: CircuitPart,
  fed: { readonly plus: number; readonly minus: number; readonly least: number },
): boolean {
  const plus = ends[fed.plus] ?? 0;
  const minus = ends[fed.minus] ?? 0;
  const rootPlus = classes.rootOf[plus] ?? 0;
  const rootMinus = classes.rootOf[minus] ?? 0;
  // Both ends on one supply, or both on something that conducts; a voltage to a loose end feeds nothing.
  const isFirm = rootPlus === rootMinus || (tied[rootPlus] === true && tied[rootMinus] === true);
  return isFirm && (volts[plus] ?? 0) - (volts[minus] ?? 0) >= fed.least;
}

/** Lets go the contacts of relays whose coil is in the same circuit and no longer holds. */
function releaseRelays(
  circuit: Circuit,
  { volts }: Solved,
  states: (State | 'dead')[],
  stays?: Operated,
): boolean {
  const { elements } = circuit.board;
  let changed = false;
  for (const { element, ends } of circuit.parts) {
    const coil = elements[element];
    if (coil?.at.circuit.kind !== 'coil' || !coil.reads) continue;
    if (holdsIn(Math.abs((volts[ends[0] ?? 0] ?? 0) - (volts[ends[1] ?? 0] ?? 0)), coil.reads.on)) continue;
    for (const [index, part] of circuit.parts.entries()) {
      const contact = elements[part.element];
      if (contact?.mover !== 'relay' || contact.at.part !== coil.at.part || states[index] !== 'operated')
        continue;
      if (stays?.(part.element)) continue;
      states[index] = 'rest';
      changed = true;
    }
  }
  return changed;
}

/** Whether a coil holds its contacts; one whose rated voltage is not known holds at any voltage worth the name. */
export function holdsIn(volts: number, on: number | undefined): boolean {
  return volts >= (on ?? 1);
}
