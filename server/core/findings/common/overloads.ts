import type { MachineAnalysis } from '../../analysis.ts';
import type { Board } from '../../circuits/solve/board.ts';
import type { Element } from '../../circuits/solve/element.ts';
import { figure } from '../../circuits/solve/figures.ts';
import type { SolvedMachine } from '../../circuits/solve/inputs.ts';
import { findLoads } from '../../circuits/solve/loads.ts';
import { circuitsOf } from '../../circuits/solve/solved.ts';
import { voltsAcross } from './acting.ts';
import { canBeJudged } from './judgeable.ts';

/** An output or a contact that carries or switches more than its sheet allows. */
export interface Overload {
  readonly element: Element;
  readonly quantity: 'current' | 'voltage';
  /** In A or V. */
  readonly value: number;
  readonly most: number;
}

const CONTACTS: ReadonlySet<string> = new Set(['contact', 'changeover']);

/** A rating counts as kept up to here, since datasheets round (common practice, no source). */
const SLACK = 1.01;

/** By board, which outlives changes of the text that change nothing electrical. */
const kept = new WeakMap<Board, readonly Overload[]>();

/** Outputs and contacts that are overloaded in any state; each once, by its current before its voltage. */
export function findOverloads(analysis: MachineAnalysis): readonly Overload[] {
  if (!canBeJudged(analysis)) return [];
  const { solved } = circuitsOf(analysis.machine);
  let found = kept.get(solved.board);
  if (!found) {
    const byCurrent = overCurrents(solved);
    const known = new Set(byCurrent.map(({ element }) => element));
    found = [...byCurrent, ...overVoltages(solved).filter(({ element }) => !known.has(element))];
    kept.set(solved.board, found);
  }
  return found;
}

/** Whether an element is a contact rather than a transistor. */
export function isContact({ at }: Element): boolean {
  return CONTACTS.has(at.circuit.kind);
}

/** What flows with nothing or one thing operated; two outputs against each other are a mistake of another kind. */
function overCurrents(solved: SolvedMachine): Overload[] {
  return findLoads(solved).loads.flatMap(({ element, amps, rated, operated }): Overload[] =>
    rated !== undefined && rated > 0 && amps > SLACK * rated && operated.length < 2
      ? [{ element, quantity: 'current', value: amps, most: rated }]
      : [],
  );
}

/** What stands across the open contacts in the circuits of inputs and coils. */
function overVoltages({ inputs, board }: SolvedMachine): Overload[] {
  const worst = new Map<Element, Overload>();
  for (const { solution, operations } of inputs) {
    for (const state of [solution, ...operations.map((operation) => operation.solution)]) {
      for (const { element: place } of state.circuit.touchesMains ? [] : state.circuit.parts) {
        const element = board.elements[place];
        const most = element && isContact(element) ? figure(element.at.circuit, 'voltage') : undefined;
        const value = Math.abs(voltsAcross(state, place) ?? 0);
        if (!element || most === undefined || value <= SLACK * most) continue;
        if (value > (worst.get(element)?.value ?? 0))
          worst.set(element, { element, quantity: 'voltage', value, most });
      }
    }
  }
  return [...worst.values()];
}
