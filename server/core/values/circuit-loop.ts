import type { Element } from '../circuits/solve/element.ts';
import { type Step, traceLoop } from '../circuits/solve/loop.ts';
import type { Solution } from '../circuits/solve/states.ts';
import { later, said, say } from '../language/say.ts';
import { nameLink } from '../model/link-number.ts';
import type { Machine } from '../model/resolve.ts';
import { formatBest } from '../units/index.ts';
import { constantInput } from './collect.ts';
import type { Input } from './derived.ts';
import { inputShownLater, rename } from './input.ts';

/** The way of a current as the inputs of a formula, and the formula that goes round it. */
interface Loop {
  readonly formula: string;
  readonly inputs: readonly Input[];
}

/**
 * Says which way the current takes through an input: rail, contacts, wires, the input, rail. Where none flows, it says
 * what stands open.
 */
export function describeLoop(machine: Machine, solution: Solution, element: number): Loop {
  const steps = traceLoop(solution, element);
  if (steps.length > 0) {
    const inputs = uniqueNames(steps.map((step) => inputOfStep(machine, step)));
    return { formula: say`round ${inputs.map(({ name }) => `{${name}}`).join(', ')}`, inputs };
  }
  const { circuit, states } = solution;
  const open = circuit.parts.flatMap(({ element: place }, index) => {
    const each = circuit.board.elements[place];
    return each?.mover === undefined
      ? []
      : [inputOfElement(each, sayStanding, { element: each, state: states[index] ?? 'rest' })];
  });
  const own = circuit.board.elements[element];
  const inputs = uniqueNames([...(own ? [inputOfElement(own, sayFigures, own)] : []), ...open]);
  return { formula: say`no current round ${inputs.map(({ name }) => `{${name}}`).join(', ')}`, inputs };
}

function inputOfStep(machine: Machine, step: Step): Input {
  switch (step.kind) {
    case 'rail': {
      const at = step.supply?.at;
      const place = at?.part.sheet ? { file: at.part.sheet.file, at: at.circuit.key } : {};
      const name = step.terminal === '' ? later`rail` : step.terminal;
      return constantInput(name, step.volts, showVolts, place);
    }
    case 'wire': {
      const name = say`wire ${nameLink(machine, step.link)}`;
      return constantInput(name, step.ohms, showOhms, { file: machine.file, at: step.link.at });
    }
    case 'element': {
      const { element, state, amps } = step;
      return inputOfElement(element, sayCarrying, { element, state, amps });
    }
  }
}

/** An element in a state. */
interface Standing {
  readonly element: Element;
  readonly state: ElementState;
}

const showVolts = (volts: number): string => formatBest(volts, 'voltage');
const showOhms = (ohms: number): string => formatBest(ohms, 'resistance', 3);
const sayStanding = ({ element, state }: Standing): string => sayState(element, state);

function sayCarrying({ element, state, amps }: Standing & { readonly amps: number }): string {
  const what = element.mover === undefined ? sayFigures(element) : sayState(element, state);
  return say`${what} with ${formatBest(amps, 'current', 4)}`;
}

function inputOfElement<A>({ at, lacks }: Element, show: (about: A) => string, about: A): Input {
  const { part, circuit } = at;
  const place = part.sheet ? { file: part.sheet.file, at: circuit.key } : {};
  return inputShownLater(`${part.name}.${circuit.name}`, lacks.length, show, about, place);
}

type ElementState = 'rest' | 'operated' | 'dead';

/** What an element does in a state, in the language in use. */
export function sayState(element: Element, state: ElementState): string {
  return said(nameState(element, state));
}

/** A contact is closed or open, an output on or off; `dead` is a sensor without its supply. */
export function nameState(element: Element, state: ElementState): string {
  if (state === 'dead') return later`without supply`;
  const { kind } = element.at.circuit;
  if (kind === 'changeover') return state === 'rest' ? later`rest` : later`operated`;
  if (kind === 'push-pull-out' || kind === 'line-out') return state === 'rest' ? later`low` : later`high`;
  if (kind === 'analog-out') return state === 'rest' ? later`lowest` : later`highest`;
  const conducts = element[state].some(
    (branch) => branch.kind === 'join' || (branch.kind === 'diode' && branch.slope < 1),
  );
  if (kind === 'contact') return conducts ? later`closed` : later`open`;
  return conducts ? later`on` : later`off`;
}

/** The figures of an input or a resistor as its sheet states them. */
export function sayFigures({ at }: Element): string {
  const figures = ['pull', 'forward', 'resistance', 'series'].flatMap(
    (key) => at.circuit.figures.quantity(key)?.text ?? [],
  );
  return figures.length > 0 ? figures.join(say` and `) : at.circuit.kind;
}

/** Names stand in braces in the formula and must be told apart there. */
function uniqueNames(inputs: readonly Input[]): Input[] {
  const used = new Map<string, number>();
  return inputs.map((input) => {
    const plain = input.name.replace(/[{}]/g, '');
    const count = (used.get(plain) ?? 0) + 1;
    used.set(plain, count);
    if (count === 1 && plain === input.name) return input;
    const name = count === 1 ? plain : `${plain} (${count})`;
    return rename(input, name);
  });
}
