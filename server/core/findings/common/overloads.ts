import type { MachineAnalysis } from '../../analysis.ts';
import type { Element } from '../../circuits/solve/element.ts';
import { figure } from '../../circuits/solve/figures.ts';
import type { SolvedMachine } from '../../circuits/solve/inputs.ts';
import { findLoads, type Load } from '../../circuits/solve/loads.ts';
import { circuitsOf, inputsOf } from '../../circuits/solve/solved.ts';
import type { Solution } from '../../circuits/solve/states.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
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

/** Outputs and contacts that are overloaded in any state; each once, by its current before its voltage. */
export function findOverloads(analysis: MachineAnalysis): readonly Overload[] {
  return canBeJudged(analysis) ? overloadsIn(analysis) : [];
}

const overloadsIn = fact('analysis', (analysis: MachineAnalysis): readonly Overload[] => {
  const byCurrent = overCurrents(circuitsOf(analysis.machine).solved);
  const known = new Set(byCurrent.map(({ element }) => element));
  return [...byCurrent, ...overVoltages(analysis).filter(({ element }) => !known.has(element))];
});

/** Whether an element is a contact rather than a transistor. */
export function isContact({ at }: Element): boolean {
  return CONTACTS.has(at.circuit.kind);
}

/** What flows with nothing or one thing operated; two outputs against each other are a mistake of another kind. */
function overCurrents(solved: SolvedMachine): Overload[] {
  const isOver = ({ amps, rated = 0, operated }: Load): boolean =>
    rated > 0 && amps > SLACK * rated && operated.length < 2;
  return findLoads(solved, isOver).map(({ element, amps, rated = 0 }) => ({
    element,
    quantity: 'current',
    value: amps,
    most: rated,
  }));
}

/** What stands across the open contacts in the circuits of inputs and coils; the most of each. */
function overVoltages(analysis: MachineAnalysis): Overload[] {
  const worst = new Map<Element, Overload>();
  for (const over of overVoltagesAt(analysis).flat()) {
    if (over.value > (worst.get(over.element)?.value ?? 0)) worst.set(over.element, over);
  }
  return [...worst.values()];
}

const overVoltagesAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => inputsOf(machine),
  (_, { solution, operations }): readonly Overload[] =>
    [solution, ...operations.map((operation) => operation.solution)].flatMap(overVoltagesIn),
);

function overVoltagesIn(state: Solution): Overload[] {
  const { touchesMains, parts, board } = state.circuit;
  return (touchesMains ? [] : parts).flatMap(({ element: place }): Overload[] => {
    const element = board.elements[place];
    const most = element && isContact(element) ? figure(element.at.circuit, 'voltage') : undefined;
    const value = Math.abs(voltsAcross(state, place) ?? 0);
    if (!element || most === undefined || value <= SLACK * most) return [];
    return [{ element, quantity: 'voltage', value, most }];
  });
}
