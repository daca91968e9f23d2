import type { Part } from '../../model/machine.ts';
import type { Circuit } from '../../model/sheet.ts';
import { type Branch, resistor, source } from './branch.ts';
import type { Plain, Reads } from './element.ts';
import { figure, inputSpan, says } from './figures.ts';
import type { Wired } from './wired.ts';

/** A lamp without a resistor of its own still has a slope; on every resistor that belongs before it, it is nothing. */
const LAMP_SLOPE = 1;

/** Pulled up inside; on when pulled down to the return. */
export function makePulledUpIn(circuit: Circuit): Plain {
  const pull = figure(circuit, 'pull');
  const ohms = figure(circuit, 'resistance');
  const reads = thresholds(figure(circuit, 'on-below'), figure(circuit, 'off-above'), {
    unit: 'V',
    below: true,
  });
  if (pull === undefined || ohms === undefined)
    return { rest: [], reads, lacks: lacking(circuit, ['pull', 'resistance']) };
  return { rest: [source(0, 1, pull, ohms)], reads };
}

/** Pulled down inside; on when a plus is put on it. */
export function makePulledDownIn(circuit: Circuit): Plain {
  const reads = thresholds(figure(circuit, 'on-above'), figure(circuit, 'off-below'), { unit: 'V' });
  const ohms = figure(circuit, 'resistance');
  if (ohms === undefined) return { rest: [], reads, lacks: ['resistance'] };
  return { rest: [resistor(0, 1, ohms)], reads };
}

/** The lamp of an optocoupler with the resistor before it; two lamps head to tail where either way will do. */
export function makeOptoIn(circuit: Circuit): Plain {
  const eitherWay = says(circuit, 'either-way');
  const reads = {
    ...thresholds(figure(circuit, 'on-at'), figure(circuit, 'off-at'), { unit: 'A', eitherWay }),
    most: figure(circuit, 'most'),
  };
  const threshold = figure(circuit, 'forward');
  if (threshold === undefined) return { rest: [], reads, lacks: ['forward'] };
  const slope = Math.max(figure(circuit, 'series') ?? 0, LAMP_SLOPE);
  const lamp: Branch = { kind: 'diode', a: 0, b: 1, threshold, slope };
  return { rest: eitherWay ? [lamp, { ...lamp, a: 1, b: 0 }] : [lamp], reads };
}

/**
 * Looks at the difference of two signals: surely on above its threshold, surely off below minus that. It reads volts,
 * since that is what its datasheet states and what RS-422 receivers respond to.
 */
export function makeLineIn(circuit: Circuit): Plain {
  const least = figure(circuit, 'voltage');
  const reads = thresholds(least, least === undefined ? undefined : -least, { unit: 'V' });
  return { rest: between(circuit), reads };
}

/** Measures a voltage; it has no thresholds, and what is above its span tells it nothing more. */
export function makeAnalogIn(machine: Wired, part: Part, circuit: Circuit): Plain {
  const most = inputSpan(machine, part, circuit)?.[1];
  return { rest: between(circuit), reads: { ...thresholds(undefined, undefined, { unit: 'V' }), most } };
}

/**
 * A coil of a relay, contactor or valve. It surely works from 85 % of its rated voltage, and has surely let go at 10 %
 * (IEC 60947-4-1, contactors for direct current; from memory). Its clamp carries nothing in the steady state.
 */
export function makeCoil(circuit: Circuit): Plain {
  const volts = figure(circuit, 'voltage');
  const share = (part: number) => (volts === undefined ? undefined : part * volts);
  const reads = { ...thresholds(share(0.85), share(0.1), { unit: 'V', eitherWay: true }), most: share(1.1) };
  const ohms = figure(circuit, 'resistance');
  if (ohms === undefined) return { rest: [], reads, lacks: ['resistance'] };
  return { rest: [resistor(0, 1, ohms)], reads };
}

/** The resistance between the two ends, where the sheet states one. */
export function between(circuit: Circuit): Branch[] {
  const ohms = figure(circuit, 'resistance');
  return ohms === undefined ? [] : [resistor(0, 1, ohms)];
}

/** A sheet that states one threshold alone means it for both ways. */
function thresholds(
  on: number | undefined,
  off: number | undefined,
  how: { unit: 'V' | 'A'; below?: boolean; eitherWay?: boolean },
): Reads {
  return {
    unit: how.unit,
    eitherWay: how.eitherWay ?? false,
    on: on ?? off,
    off: off ?? on,
    below: how.below ?? false,
    most: undefined,
  };
}

function lacking(circuit: Circuit, keys: readonly string[]): string[] {
  return keys.filter((key) => figure(circuit, key) === undefined);
}
