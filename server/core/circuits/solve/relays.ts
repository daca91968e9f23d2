import type { Board } from './board.ts';
import { composeCircuit } from './circuit.ts';
import type { Element } from './element.ts';
import { type Group, plainView } from './groups.ts';
import { readInput } from './reading.ts';
import { holdsIn, solveState } from './states.ts';

/** How often relays may let go in turn before it is called enough; each round lets at least one go for good. */
const MOST_ROUNDS = 30;

/**
 * Which relays are held in while the machine is on and nobody touches anything: all that can hold themselves. Each is
 * taken as held first; those whose coil then gets too little let go, until none does. So a contactor that holds itself
 * in by its own contact is on, and one that an output drives is off while the output is.
 * @returns the parts whose contacts are operated
 */
export function heldRelays(board: Board, groupOf: (element: number) => Group | undefined): Set<string> {
  const coils = [...board.elements.entries()].filter(([, element]) => operates(element));
  const held = new Set(coils.map(([, { at }]) => at.part.name));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let changed = false;
    for (const [place, coil] of coils) {
      const group = groupOf(place);
      if (!group || !held.has(coil.at.part.name)) continue;
      const solution = solveState(composeCircuit(board, plainView(board), group), (element) =>
        isHeld(board, held, element),
      );
      const { value } = readInput(solution, place);
      if (value !== undefined && holdsIn(value, coil.reads?.on)) continue;
      held.delete(coil.at.part.name);
      changed = true;
    }
    if (!changed) break;
  }
  return held;
}

/** Whether an element is a relay contact whose relay is held in. */
export function isHeld(board: Board, held: ReadonlySet<string>, element: number): boolean {
  const at = board.elements[element];
  return at?.mover === 'relay' && held.has(at.at.part.name);
}

/** A coil that moves contacts, unlike the coil of a valve. */
function operates({ at }: Element): boolean {
  if (at.circuit.kind !== 'coil') return false;
  const circuits = [...(at.part.sheet?.circuits.values() ?? [])];
  return circuits.some(({ kind }) => kind === 'contact' || kind === 'changeover');
}
