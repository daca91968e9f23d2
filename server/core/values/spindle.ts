import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { loadingError, stepOfBits } from '../motion/analog.ts';
import { TURN } from '../motion/domain.ts';
import { slip, synchronousSpeed } from '../motion/spindle.ts';
import { type Collector, factInput, figureInput, keyedInput, listNeeds } from './collect.ts';
import type { Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { section } from './piece.ts';
import { outputSpan, readSpindle, referenceSpan, type SpindleParts } from './spindle-parts.ts';
import { deriveReadings } from './spindle-readings.ts';
import { deriveWait } from './spindle-wait.ts';

/** The speeds of the spindle, the signal that asks for them, the ramp against the wait, and what was measured. */
export const deriveSpindle = section(addSpindle);

function addSpindle(machine: Machine, out: Collector): void {
  const spindle = readSpindle(machine);
  if (!spindle) return;
  const poles = factInput(later`poles`, spindle.motor, 'poles');
  deriveSynchronous(spindle, poles, out);
  deriveTopSpeed(machine, spindle, poles, out);
  const keyed = topSpeedKeyedIn(machine, spindle);
  deriveSignal(spindle, keyed, out);
  deriveLoading(spindle, out);
  deriveWait(machine, spindle, out);
  deriveReadings(machine, keyed, out);
}

/** The speed for which the controller gives its full signal. */
export function topSpeedKeyedIn(machine: Machine, { controller }: SpindleParts): Input | undefined {
  return keyedInput(
    later`top speed keyed in`,
    controller && keyedInMeaning(machine.file, controller, 'spindle-top-speed'),
  );
}

function deriveSynchronous({ motor }: SpindleParts, poles: Input | undefined, out: Collector): void {
  const frequency = factInput(later`plate frequency`, motor, 'plate-frequency');
  if (!poles || !frequency) {
    out.lack(
      'spindle.synchronous-speed',
      listNeeds([
        [poles, say`the motor's poles`],
        [frequency, say`the frequency on its plate`],
      ]),
    );
    return;
  }
  const speed = out.add({
    address: 'spindle.synchronous-speed',
    unit: 'rpm',
    formula: '120 × {plate frequency} / {poles}',
    inputs: [frequency, poles],
    si: synchronousSpeed(frequency.value, poles.value),
    source: say`textbook, speed of the rotating field`,
  });
  const plate = factInput(later`plate speed`, motor, 'plate-speed');
  if (!speed || !plate) return;
  const field = inputFrom(speed, later`synchronous speed`);
  out.add({
    address: 'spindle.slip',
    unit: '%',
    formula: '({synchronous speed} − {plate speed}) / {synchronous speed}',
    inputs: [field, plate],
    si: slip(field.value, plate.value),
    source: say`textbook, definition of slip`,
  });
}

/** What the converter gives at the top of the speed signal; a signal that ends below the converter's span asks for less. */
function deriveTopSpeed(
  machine: Machine,
  spindle: SpindleParts,
  poles: Input | undefined,
  out: Collector,
): void {
  const { converter } = spindle;
  const frequency = keyedInput(
    later`top frequency`,
    converter && keyedInMeaning(machine.file, converter, 'top-frequency'),
  );
  if (!poles || !frequency) {
    const needs = listNeeds([
      [poles, say`the motor's poles`],
      [frequency, say`the converter's top frequency`],
    ]);
    out.lack('spindle.top-speed', needs);
    return;
  }
  const given = outputSpan(spindle)?.top;
  const asked = referenceSpan(machine, spindle)?.top;
  const isShort = given !== undefined && asked !== undefined && given.value < asked.value;
  out.add({
    address: 'spindle.top-speed',
    unit: 'rpm',
    formula: `120 × {top frequency} / {poles}${isShort ? ` × {${given.name}} / {${asked.name}}` : ''}`,
    inputs: [frequency, poles, ...(isShort ? [given, asked] : [])],
    si: synchronousSpeed(frequency.value, poles.value) * (isShort ? given.value / asked.value : 1),
    source: say`textbook, speed of the rotating field; without slip`,
  });
}

/** What the speed output gives for a thousand turns a minute, and the smallest change of speed that it can ask for. */
function deriveSignal(spindle: SpindleParts, keyed: Input | undefined, out: Collector): void {
  const span = outputSpan(spindle);
  if (keyed && span) {
    const thousand = (1000 * TURN) / 60;
    out.add({
      address: 'spindle.volts-per-1000rpm',
      unit: 'V',
      formula: `({${span.top.name}} − {${span.bottom.name}}) × 1000 rpm / {${keyed.name}}`,
      inputs: [span.top, span.bottom, keyed],
      si: ((span.top.value - span.bottom.value) * thousand) / keyed.value,
      source: say`straight scale of the speed output`,
    });
  } else
    out.lack(
      'spindle.volts-per-1000rpm',
      listNeeds([
        [keyed, say`the top speed keyed into the controller`],
        [span, say`the span of the controller's speed output`],
      ]),
    );
  const bits = coarserBits(spindle);
  if (!keyed || !bits) {
    out.lack(
      'spindle.speed-step',
      listNeeds([
        [keyed, say`the top speed keyed into the controller`],
        [bits, say`the bits of the controller's speed output`],
      ]),
    );
    return;
  }
  out.add({
    address: 'spindle.speed-step',
    unit: 'rpm',
    formula: `{${keyed.name}} / 2^{${bits.name}}`,
    inputs: [keyed, bits],
    si: stepOfBits(keyed.value, bits.value),
    source: say`data sheets of converters from digital to analog`,
  });
}

/** How far the converter's input pulls the speed signal down, by the resistance of the output that makes it. */
function deriveLoading({ output, input }: SpindleParts, out: Collector): void {
  const [from, to] = [output, input].map((at) =>
    at?.part.sheet
      ? figureInput(say`resistance of ${at.part.name}`, at.circuit.figures, 'resistance', at.part.sheet.file)
      : undefined,
  );
  if (!from || !to) return;
  out.add({
    address: 'spindle.loading-error',
    unit: '%',
    formula: `−{${from.name}} / ({${from.name}} + {${to.name}})`,
    inputs: [from, to],
    si: loadingError(from.value, to.value),
    source: say`textbook, voltage divider`,
  });
}

/** The coarser of the two resolutions that the speed passes through. */
export function coarserBits({ output, input }: SpindleParts): Input | undefined {
  const bits = [output, input].map((at) =>
    at?.part.sheet
      ? figureInput(say`bits of ${at.part.name}`, at.circuit.figures, 'bits', at.part.sheet.file)
      : undefined,
  );
  return bits[0] && bits.reduce((a, b) => (a && b && b.value < a.value ? b : a));
}
