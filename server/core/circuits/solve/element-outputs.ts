import type { Circuit } from '../../model/sheet.ts';
import { type Branch, limitedCurrent, resistor, source } from './branch.ts';
import type { Plain } from './element.ts';
import { figure, spanOf } from './figures.ts';

/**
 * The slope of a transistor that is on, beside the drop that its sheet states: small beside every resistance in a
 * signal's way (0.5 mV at 50 mA), and above zero so that two outputs against each other have a current to show.
 */
const TRANSISTOR_SLOPE = 0.01;

/** A transistor between its out terminal (the first end) and its return: pulls down, current flows in at `out`. */
export function makeSinkOut(circuit: Circuit): Plain {
  return { rest: leakOf(circuit, 0, 1, 2), operated: [transistor(circuit, 0, 1)], mover: 'output' };
}

/** A transistor between a plus (the second end) and its out terminal: pulls up. */
export function makeSourceOut(circuit: Circuit): Plain {
  return { rest: leakOf(circuit, 1, 0, 2), operated: [transistor(circuit, 1, 0)], mover: 'output' };
}

/**
 * An output that drives both ways: low at rest, high when operated. Its drop is stated at its rated current, so it is
 * taken as the resistance that loses just that.
 */
export function makePushPullOut(circuit: Circuit): Plain {
  const drop = figure(circuit, 'drop') ?? 0;
  const current = figure(circuit, 'current') ?? 0;
  const ohms = current > 0 && drop > 0 ? drop / current : TRANSISTOR_SLOPE;
  return { rest: [resistor(0, 2, ohms)], operated: [resistor(1, 0, ohms)], mover: 'output' };
}

/** A pair of outputs that are always opposite: below each other at rest, above when operated. */
export function makeLineOut(circuit: Circuit): Plain {
  const volts = figure(circuit, 'voltage');
  if (volts === undefined) return { rest: [], lacks: ['voltage'], mover: 'output' };
  const ohms = figure(circuit, 'resistance') ?? 0;
  return { rest: [source(0, 1, -volts, ohms)], operated: [source(0, 1, volts, ohms)], mover: 'output' };
}

/** A voltage that says how much: the least of its span at rest, the most of it when operated. */
export function makeAnalogOut(circuit: Circuit): Plain {
  const span = spanOf(circuit, 'span');
  if (!span) return { rest: [], lacks: ['span'], mover: 'output' };
  const ohms = figure(circuit, 'resistance') ?? 0;
  const [least, most] = span;
  return { rest: [source(0, 1, least, ohms)], operated: [source(0, 1, most, ohms)], mover: 'output' };
}

/** The way through a transistor that is on, from end to end. */
export function transistor(circuit: Circuit, from: number, to: number): Branch {
  return {
    kind: 'diode',
    a: from,
    b: to,
    threshold: figure(circuit, 'drop') ?? 0,
    slope: TRANSISTOR_SLOPE,
  };
}

/** What still flows through it while it is off; `inner` is the number of a node inside it. */
export function leakOf(circuit: Circuit, from: number, to: number, inner: number): Branch[] {
  const leak = figure(circuit, 'leak') ?? 0;
  return leak > 0 ? limitedCurrent(from, to, leak, inner) : [];
}
