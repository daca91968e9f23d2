import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { loadingError, stepOfBits } from '../motion/analog.ts';
import { TURN } from '../motion/domain.ts';
import { rampTime, slip, synchronousSpeed, waitMargin } from '../motion/spindle.ts';
import { marginShare } from '../motion/timing.ts';
import { type Collector, factInput, figureInput, keyedInput, listNeeds } from './collect.ts';
import { type Input, inputFrom } from './derived.ts';
import { outputSpan, readSpindle, referenceSpan, type SpindleParts } from './spindle-parts.ts';
import { deriveReadings } from './spindle-readings.ts';

/** The speeds of the spindle, the signal that asks for them, the ramp against the wait, and what was measured. */
export function deriveSpindle(machine: Machine, out: Collector): void {
  const spindle = readSpindle(machine);
  if (!spindle) return;
  const poles = factInput('poles', spindle.motor, 'poles');
  deriveSynchronous(spindle, poles, out);
  deriveTopSpeed(machine, spindle, poles, out);
  const keyed = keyedInput(
    'top speed keyed in',
    spindle.controller && keyedInMeaning(machine.file, spindle.controller, 'spindle-top-speed'),
  );
  deriveSignal(spindle, keyed, out);
  deriveLoading(spindle, out);
  deriveWait(machine, spindle, out);
  deriveReadings(machine, keyed, out);
}

function deriveSynchronous({ motor }: SpindleParts, poles: Input | undefined, out: Collector): void {
  const frequency = factInput('plate frequency', motor, 'plate-frequency');
  if (!poles || !frequency) {
    out.lack(
      'spindle.synchronous-speed',
      listNeeds([
        [poles, "the motor's poles"],
        [frequency, 'the frequency on its plate'],
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
    source: 'textbook, speed of the rotating field',
  });
  const plate = factInput('plate speed', motor, 'plate-speed');
  if (!speed || !plate) return;
  const field = inputFrom(speed, 'synchronous speed');
  out.add({
    address: 'spindle.slip',
    unit: '%',
    formula: '({synchronous speed} − {plate speed}) / {synchronous speed}',
    inputs: [field, plate],
    si: slip(field.value, plate.value),
    source: 'textbook, definition of slip',
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
    'top frequency',
    converter && keyedInMeaning(machine.file, converter, 'top-frequency'),
  );
  if (!poles || !frequency) {
    const needs = listNeeds([
      [poles, "the motor's poles"],
      [frequency, "the converter's top frequency"],
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
    source: 'textbook, speed of the rotating field; without slip',
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
      source: 'straight scale of the speed output',
    });
  } else
    out.lack(
      'spindle.volts-per-1000rpm',
      listNeeds([
        [keyed, 'the top speed keyed into the controller'],
        [span, "the span of the controller's speed output"],
      ]),
    );
  const bits = coarser(spindle);
  if (!keyed || !bits) {
    out.lack(
      'spindle.speed-step',
      listNeeds([
        [keyed, 'the top speed keyed into the controller'],
        [bits, "the bits of the controller's speed output"],
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
    source: 'data sheets of converters from digital to analog',
  });
}

/** How far the converter's input pulls the speed signal down, by the resistance of the output that makes it. */
function deriveLoading({ output, input }: SpindleParts, out: Collector): void {
  const [from, to] = [output, input].map((at) =>
    at?.part.sheet
      ? figureInput(`resistance of ${at.part.name}`, at.circuit.figures, 'resistance', at.part.sheet.file)
      : undefined,
  );
  if (!from || !to) return;
  out.add({
    address: 'spindle.loading-error',
    unit: '%',
    formula: `−{${from.name}} / ({${from.name}} + {${to.name}})`,
    inputs: [from, to],
    si: loadingError(from.value, to.value),
    source: 'textbook, voltage divider',
  });
}

/** The coarser of the two resolutions that the speed passes through. */
function coarser({ output, input }: SpindleParts): Input | undefined {
  const bits = [output, input].map((at) =>
    at?.part.sheet
      ? figureInput(`bits of ${at.part.name}`, at.circuit.figures, 'bits', at.part.sheet.file)
      : undefined,
  );
  return bits[0] && bits.reduce((a, b) => (a && b && b.value < a.value ? b : a));
}

/** The time to the wanted top speed, and what is left of the controller's wait when the spindle has come up to it. */
function deriveWait(machine: Machine, { converter, controller, fields }: SpindleParts, out: Collector): void {
  const setTime = keyedInput('ramp-up time', converter && keyedInMeaning(machine.file, converter, 'ramp-up'));
  const wanted = figureInput('wanted top speed', fields, 'top-speed', machine.file);
  const full = out.get('spindle.top-speed');
  if (!setTime) {
    out.lack('spindle.wait-margin', "the converter's ramp-up time");
    return;
  }
  const top = full && inputFrom(full, 'top speed of the converter');
  const isPart = wanted !== undefined && top !== undefined && wanted.value < top.value;
  const ramp = out.add({
    address: 'spindle.ramp-time',
    unit: 's',
    formula: isPart ? `{ramp-up time} × {wanted top speed} / {${top.name}}` : '{ramp-up time}',
    inputs: isPart ? [setTime, wanted, top] : [setTime],
    si: isPart ? rampTime(setTime.value, 0, wanted.value, top.value) : setTime.value,
    source: 'frequency converter manuals: the set time is that to the top frequency',
  });
  const wait = keyedInput('wait', controller && keyedInMeaning(machine.file, controller, 'spindle-wait'));
  if (!ramp || !wait) {
    out.lack('spindle.wait-margin', "the controller's wait for the spindle");
    return;
  }
  const needed = inputFrom(ramp, 'ramp time');
  const spare = out.add({
    address: 'spindle.wait-margin',
    unit: 's',
    formula: '{wait} − {ramp time}',
    inputs: [wait, needed],
    si: waitMargin(wait.value, needed.value),
    source: 'definition',
  });
  if (!spare || !(needed.value > 0)) return;
  const margin = inputFrom(spare, 'margin');
  out.add({
    address: 'spindle.wait-share',
    unit: '%',
    formula: '{margin} / {ramp time}',
    inputs: [margin, needed],
    si: marginShare(margin.value, needed.value),
    source: 'definition',
  });
}
