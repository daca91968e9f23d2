import type { Element } from '../../circuits/solve/element.ts';
import { figure } from '../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import type { Solution } from '../../circuits/solve/states.ts';
import type { Part } from '../../model/machine.ts';
import { readsOf } from './sights.ts';

/** A sensor on three wires in the circuit of an input. */
export interface ActingSensor {
  readonly element: Element;
  readonly part: Part;
  /** True where it was solved to have no supply that it can work on. */
  readonly isDead: boolean;
  /** Between its plus and its minus, in V; undefined where the circuit has no solution. */
  readonly volts: number | undefined;
}

/** The sensors in the circuit of an input, as they are at rest. */
export function sensorsOf({ solution }: SolvedInput): ActingSensor[] {
  const { circuit, states } = solution;
  return circuit.parts.flatMap(({ element: place, ends }, index) => {
    const element = circuit.board.elements[place];
    if (element?.at.circuit.kind !== 'sensor') return [];
    const volts = voltsBetween(solution, ends[0] ?? 0, ends[1] ?? 0);
    return [{ element, part: element.at.part, isDead: states[index] === 'dead', volts }];
  });
}

/** Which way the output of a sensor goes while it conducts: a PNP output up to plus, an NPN output down to minus. */
export function sensorSide({ element }: ActingSensor): 'up' | 'down' {
  return element.at.circuit.figures.text('switching')?.value === 'npn' ? 'down' : 'up';
}

/**
 * Whether the lamp of an optocoupler is the wrong way round: in some state so much voltage stands against it that it
 * would be on if it were turned.
 */
export function isReversedLamp(input: SolvedInput): boolean {
  const { at, solution, operations, element } = input;
  const reads = readsOf(input);
  if (at.circuit.kind !== 'opto-in' || reads?.eitherWay || reads?.on === undefined) return false;
  const [forward, series] = [figure(at.circuit, 'forward') ?? 0, figure(at.circuit, 'series') ?? 0];
  return [solution, ...operations.map((operation) => operation.solution)].some((state) => {
    const volts = -(voltsAcross(state, element) ?? 0) - forward;
    return volts > 0 && (series === 0 || volts / series >= (reads.on ?? 0));
  });
}

/** Whether one line alone of a pair leads to an input: then nothing says at which voltage either of the two is. */
export function hangsOnHalfPair({ solution: { circuit, outcome } }: SolvedInput): boolean {
  if (outcome.kind !== 'solved') return false;
  const { tied, classes } = outcome;
  return circuit.parts.some(
    ({ element, ends }) =>
      circuit.board.elements[element]?.at.circuit.kind === 'line-out' &&
      ends.every((end) => tied[classes.rootOf[end] ?? 0] !== true),
  );
}

/** The voltage between the first two ends of an element in a state. */
export function voltsAcross(solution: Solution, element: number): number | undefined {
  const part = solution.circuit.parts.find((each) => each.element === element);
  return part && voltsBetween(solution, part.ends[0] ?? 0, part.ends[1] ?? 0);
}

function voltsBetween({ outcome }: Solution, a: number, b: number): number | undefined {
  if (outcome.kind !== 'solved') return undefined;
  const [high, low] = [outcome.volts[a], outcome.volts[b]];
  return high === undefined || low === undefined ? undefined : high - low;
}
