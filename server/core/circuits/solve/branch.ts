/**
 * The five things that every circuit of a machine comes down to. `a` and `b` are nodes; a voltage counts as positive
 * when `a` is above `b`, a current when it flows from `a` through the branch to `b`.
 */
export type Branch = Join | Resistor | Source | Current | Diode;

/** Holds `a` by so many volts above `b`, whatever flows: a wire or a closed contact (0 V), or a supply. */
export interface Join {
  readonly kind: 'join';
  readonly a: number;
  readonly b: number;
  readonly volts: number;
}

interface Resistor {
  readonly kind: 'resistor';
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
}

/** A voltage behind a resistance: what a pulled-up input or an analog output is to the outside. */
export interface Source {
  readonly kind: 'source';
  readonly a: number;
  readonly b: number;
  readonly volts: number;
  readonly ohms: number;
}

/** Drives so many amperes from `a` through itself to `b`. */
export interface Current {
  readonly kind: 'current';
  readonly a: number;
  readonly b: number;
  readonly amps: number;
}

/** Conducts from `a` to `b` above a threshold, with a slope; blocks below it. The lamp of an optocoupler, a transistor. */
interface Diode {
  readonly kind: 'diode';
  readonly a: number;
  readonly b: number;
  readonly threshold: number;
  readonly slope: number;
}

/** Nodes numbered from 0, what is between them, and the node from which voltages are counted. */
export interface Network {
  readonly nodes: number;
  readonly reference: number;
  readonly branches: readonly Branch[];
}

/** Below this a resistance is taken for none: it is that of 10 cm of thick wire, and conductances stay within bounds. */
const LEAST_OHMS = 1e-3;

/** A resistor, or a join where it has no resistance to speak of. */
export function resistor(a: number, b: number, ohms: number): Branch {
  return ohms < LEAST_OHMS ? { kind: 'join', a, b, volts: 0 } : { kind: 'resistor', a, b, ohms };
}

/** A voltage behind a resistance, or an unyielding one where there is no resistance to speak of. */
export function source(a: number, b: number, volts: number, ohms: number): Branch {
  return ohms < LEAST_OHMS ? { kind: 'join', a, b, volts } : { kind: 'source', a, b, volts, ohms };
}

/**
 * Lets a current through from `a` to `b` up to a limit, as what leaks through a transistor or a sensor that is off: a
 * current source whose surplus goes round through a diode beside it, so that it never drives anything by itself, behind
 * a diode that blocks the way back.
 * @param inner a node of its own, between the two
 */
export function limitedCurrent(a: number, b: number, amps: number, inner: number): Branch[] {
  return [
    { kind: 'diode', a, b: inner, threshold: 0, slope: LEAK_SLOPE },
    { kind: 'current', a: inner, b, amps },
    { kind: 'diode', a: b, b: inner, threshold: 0, slope: LEAK_SLOPE },
  ];
}

/** Small beside every load: a leak of 1 mA loses 1 mV on it. */
const LEAK_SLOPE = 1;
