import { keptBy } from '../../reuse/kept-by.ts';
import { type Board, listElements } from './board.ts';
import { type Circuit, composeCircuit } from './circuit.ts';
import type { Element } from './element.ts';
import { type Group, plainView } from './groups.ts';
import { readInput } from './reading.ts';
import { holdsIn, type Solution, solveState } from './states.ts';

/** How often relays may let go in turn before it is called enough; each round lets at least one go for good. */
const MOST_ROUNDS = 30;

/**
 * Which relays are held in while the machine is on and nobody touches anything: all that can hold themselves. Each is
 * taken as held first; those whose coil then gets too little let go, until none does. So a contactor that holds itself
 * in by its own contact is on, and one that an output drives is off while the output is.
 * @returns the parts whose contacts are operated
 */
export function heldRelays(
  board: Board,
  groupOf: (element: number) => Group | undefined,
): ReadonlySet<string> {
  const coils = coilsOf(board);
  const held = new Set(coils.map(([, { at }]) => at.part.name));
  const circuits = new Map<Group, Circuit>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const solutions = new Map<Group, Solution>();
    const letGo = coils.filter(([place, coil]) => {
      const group = groupOf(place);
      if (!group || !held.has(coil.at.part.name)) return false;
      const circuit = circuits.get(group) ?? composeCircuit(board, plainView(board), group);
      circuits.set(group, circuit);
      const solution = solutions.get(group) ?? solveState(circuit, (element) => isHeld(board, held, element));
      solutions.set(group, solution);
      const { value } = readInput(solution, place);
      return value === undefined || !holdsIn(value, coil.reads?.on);
    });
    if (letGo.length === 0) break;
    for (const [, { at }] of letGo) held.delete(at.part.name);
  }
  return held;
}

/** Whether an element is a relay contact whose relay is held in. */
export function isHeld(board: Board, held: ReadonlySet<string>, element: number): boolean {
  const at = board.elements[element];
  return at?.mover === 'relay' && held.has(at.at.part.name);
}

/** The coils that move contacts, by their places. */
export function coilsOf({ elements }: Board): readonly (readonly [place: number, coil: Element])[] {
  return coilsAmong(elements);
}

const coilsAmong = keptBy((elements: Board['elements']) =>
  listElements({ elements }).filter(([, element]) => operates(element)),
);

/** A coil that moves contacts, unlike the coil of a valve. */
function operates({ at }: Element): boolean {
  if (at.circuit.kind !== 'coil') return false;
  const circuits = [...(at.part.sheet?.circuits.values() ?? [])];
  return circuits.some(({ kind }) => kind === 'contact' || kind === 'changeover');
}
