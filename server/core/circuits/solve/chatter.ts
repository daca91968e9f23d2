import type { Element } from './element.ts';
import type { SolvedInput } from './inputs.ts';
import { readInput, type Sight } from './reading.ts';
import { type Operated, type Solution, solveState } from './states.ts';

/** A coil that its own contact takes off its supply as soon as it has pulled in, and puts back once it has let go. */
export interface Chatter {
  /** The contact that does it. */
  readonly contact: Element;
  /** What the coil gets before its contacts have moved, and what after. */
  readonly released: Sight;
  readonly pulledIn: Sight;
}

/**
 * Finds out whether a coil chatters: in some state it pulls in, and with its own contacts moved it has surely let go. One
 * that holds itself in, or lives on less once it has pulled in, does not.
 */
export function chatterOf(coil: SolvedInput): Chatter | undefined {
  if (coil.at.circuit.kind !== 'coil') return undefined;
  const { circuit } = coil.solution;
  const { elements } = circuit.board;
  const own = coil.group.elements.filter((place) => {
    const element = elements[place];
    return element?.mover === 'relay' && element.at.part.name === coil.at.part.name;
  });
  if (own.length === 0) return undefined;
  for (const before of statesOf(coil, own)) {
    const released = readInput(before, coil.element);
    if (released.level !== 'on') continue;
    const move = (moved: readonly number[]): Sight => {
      const isMoved: Operated = (place) => moved.includes(place);
      const after = solveState(circuit, (place) => isMoved(place) || isOperated(before, place), isMoved);
      return readInput(after, coil.element);
    };
    const pulledIn = move(own);
    if (pulledIn.level !== 'off') continue;
    const contact = elements[own.find((place) => move([place]).level === 'off') ?? own[0] ?? -1];
    if (contact) return { contact, released, pulledIn };
  }
  return undefined;
}

/** The states in which the relay itself is released: at rest, with each actor operated, and with all that can be closed. */
function statesOf({ solution, operations }: SolvedInput, own: readonly number[]): readonly Solution[] {
  const { circuit } = solution;
  const closed = solveState(
    circuit,
    (place) => !own.includes(place) && canClose(circuit.board.elements[place]),
  );
  const states = [solution, ...operations.map((operation) => operation.solution), closed];
  return states.filter((state) => own.every((place) => !isOperated(state, place)));
}

/** Whether something lets a current through when it is operated, and none before. */
function canClose(element: Element | undefined): boolean {
  if (element?.mover === 'output') return true;
  const isContact = element?.mover === 'contact' || element?.mover === 'relay';
  return isContact && element.rest.length === 0;
}

function isOperated({ circuit, states }: Solution, place: number): boolean {
  return states[circuit.partOf.get(place) ?? -1] === 'operated';
}
