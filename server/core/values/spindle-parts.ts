import { type CircuitAt, circuitsDoing } from '../circuits/signals.ts';
import { later, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { fact, keepIf } from '../reuse/fact.ts';
import { isSameList } from '../same-list.ts';
import type { Fields } from '../shape/fields.ts';
import { readSpan, type Span } from '../units/index.ts';
import type { Input } from './derived.ts';

/** The parts that turn the spindle, as far as they are known. */
export interface SpindleParts {
  readonly fields: Fields;
  readonly motor: Part | undefined;
  readonly converter: Part | undefined;
  readonly controller: Part | undefined;
  /** The controller's output that asks for a speed, and the converter's input for it. */
  readonly output: CircuitAt | undefined;
  readonly input: CircuitAt | undefined;
}

/** The two ends of a voltage span, as inputs of a formula. */
export interface Ends {
  readonly bottom: Input;
  readonly top: Input;
}

/** Finds the parts of the spindle; undefined when the machine says nothing of one. */
export const readSpindle = fact('machine', findSpindle, keepIf(isSameSpindle));

function isSameSpindle(a: SpindleParts | undefined, b: SpindleParts | undefined): boolean {
  if (!a || !b) return a === b;
  const rest = ({ fields, motor, converter, controller, output, input }: SpindleParts) => [
    fields,
    motor,
    converter,
    controller,
    output?.part,
    output?.circuit,
    input?.part,
    input?.circuit,
  ];
  return isSameList(rest(a), rest(b));
}

function findSpindle(machine: Machine): SpindleParts | undefined {
  const fields = machine.fields.child('spindle');
  if (!fields.node) return undefined;
  const named = (key: string): Part | undefined => {
    const name = fields.text(key)?.value;
    return name === undefined ? undefined : machine.parts.get(name);
  };
  const converter = named('converter');
  const speedOf = (part: Part, kind: string) =>
    circuitsDoing(part, 'spindle speed').find((circuit) => circuit.kind === kind);
  const outputs = [...machine.parts.values()].flatMap((part) => {
    const circuit = part === converter ? undefined : speedOf(part, 'analog-out');
    return circuit ? [{ part, circuit }] : [];
  });
  const input = converter && speedOf(converter, 'analog-in');
  return {
    fields,
    converter,
    motor: named('motor'),
    controller: outputs[0]?.part ?? partThatWaits(machine),
    output: outputs[0],
    input: converter && input ? { part: converter, circuit: input } : undefined,
  };
}

/** A controller without a speed output is known by its settings for the spindle. */
function partThatWaits(machine: Machine): Part | undefined {
  return [...machine.parts.values()].find((part) =>
    [...(part.sheet?.settings.values() ?? [])].some(
      ({ is }) => is === 'spindle-top-speed' || is === 'spindle-wait',
    ),
  );
}

/** From what to what voltage the controller asks for speeds. */
export function outputSpan({ output }: SpindleParts): Ends | undefined {
  const given = output?.circuit.figures.span('span');
  const file = output?.part.sheet?.file;
  return given && file !== undefined
    ? endsOf(given.value, later`speed output`, { file, at: given.at })
    : undefined;
}

/** The voltages between which the converter goes from standstill to its top frequency: as set, or by its sheet. */
export function referenceSpan(machine: Machine, { converter, input }: SpindleParts): Ends | undefined {
  const keyed = converter && keyedInMeaning(machine.file, converter, 'speed-reference');
  const set = keyed && readVolts(keyed.scalar.text);
  if (keyed && set) return endsOf(set, later`speed reference`, { file: keyed.file, at: keyed.scalar });
  const given = input?.circuit.figures.span('span');
  const file = input?.part.sheet?.file;
  return given && file !== undefined
    ? endsOf(given.value, later`speed reference`, { file, at: given.at })
    : undefined;
}

/** A span of voltages, as the choices of `speed-reference` are. */
export function readVolts(text: string): Span | undefined {
  return readSpan(text, { dimension: 'voltage', units: ['V'] }).value;
}

function endsOf({ least, most }: Span, name: string, place: Pick<Input, 'file' | 'at'>): Ends {
  return {
    bottom: { name: say`bottom of the ${name}`, value: least.value, shown: least.text, ...place },
    top: { name: say`top of the ${name}`, value: most.value, shown: most.text, ...place },
  };
}
