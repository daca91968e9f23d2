import type { Element } from '../circuits/solve/element.ts';
import { type Step, traceLoop } from '../circuits/solve/loop.ts';
import type { Solution } from '../circuits/solve/states.ts';
import { later, say } from '../language/say.ts';
import { formatBest } from '../units/index.ts';
import type { FileId } from '../world.ts';
import { constantInput } from './collect.ts';
import type { Input } from './derived.ts';

/** The way of a current as the inputs of a formula, and the formula that goes round it. */
interface Loop {
  readonly formula: string;
  readonly inputs: readonly Input[];
}

/**
 * Says which way the current takes through an input: rail, contacts, wires, the input, rail. Where none flows, it says
 * what stands open.
 * @param file the machine's file, for the places of its links
 */
export function describeLoop(solution: Solution, element: number, file: FileId): Loop {
  const steps = traceLoop(solution, element);
  if (steps.length > 0) {
    const inputs = uniqueNames(steps.map((step) => inputOfStep(step, file)));
    return { formula: say`round ${inputs.map(({ name }) => `{${name}}`).join(', ')}`, inputs };
  }
  const { circuit, states } = solution;
  const open = circuit.parts.flatMap(({ element: place }, index) => {
    const each = circuit.board.elements[place];
    return each?.mover === undefined
      ? []
      : [inputOfElement(each, () => sayState(each, states[index] ?? 'rest'))];
  });
  const own = circuit.board.elements[element];
  const inputs = uniqueNames([...(own ? [inputOfElement(own, () => sayFigures(own))] : []), ...open]);
  return { formula: say`no current round ${inputs.map(({ name }) => `{${name}}`).join(', ')}`, inputs };
}

function inputOfStep(step: Step, file: FileId): Input {
  switch (step.kind) {
    case 'rail': {
      const at = step.supply?.at;
      const place = at?.part.sheet ? { file: at.part.sheet.file, at: at.circuit.key } : {};
      const name = step.terminal === '' ? later`rail` : step.terminal;
      return constantInput(name, step.volts, () => formatBest(step.volts, 'voltage'), place);
    }
    case 'wire': {
      const { label, cable, number, at } = step.link;
      const name = say`wire ${label ?? cable ?? number}`;
      return constantInput(name, step.ohms, () => formatBest(step.ohms, 'resistance', 3), { file, at });
    }
    case 'element': {
      const { element, state, amps } = step;
      const sayWhat = () => (element.mover === undefined ? sayFigures(element) : sayState(element, state));
      return inputOfElement(element, () => say`${sayWhat()} with ${formatBest(amps, 'current', 4)}`);
    }
  }
}

function inputOfElement({ at, lacks }: Element, show: () => string): Input {
  const { part, circuit } = at;
  const place = part.sheet ? { file: part.sheet.file, at: circuit.key } : {};
  return constantInput(`${part.name}.${circuit.name}`, lacks.length, show, place);
}

/** A contact is closed or open, an output on or off; `dead` is a sensor without its supply. */
export function sayState(element: Element, state: 'rest' | 'operated' | 'dead'): string {
  if (state === 'dead') return say`without supply`;
  const { kind } = element.at.circuit;
  if (kind === 'changeover') return state === 'rest' ? say`rest` : say`operated`;
  if (kind === 'push-pull-out' || kind === 'line-out') return state === 'rest' ? say`low` : say`high`;
  if (kind === 'analog-out') return state === 'rest' ? say`lowest` : say`highest`;
  const conducts = element[state].some(
    (branch) => branch.kind === 'join' || (branch.kind === 'diode' && branch.slope < 1),
  );
  if (kind === 'contact') return conducts ? say`closed` : say`open`;
  return conducts ? say`on` : say`off`;
}

/** The figures of an input or a resistor as its sheet states them. */
export function sayFigures({ at }: Element): string {
  const figures = ['pull', 'forward', 'resistance', 'series'].flatMap(
    (key) => at.circuit.figures.quantity(key)?.text ?? [],
  );
  return figures.length > 0 ? figures.join(say` and `) : at.circuit.kind;
}

function placeOf({ file, at }: Input): Pick<Input, 'file' | 'at'> {
  return { ...(file !== undefined && { file }), ...(at && { at }) };
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
    return constantInput(name, input.value, () => input.shown, placeOf(input));
  });
}
