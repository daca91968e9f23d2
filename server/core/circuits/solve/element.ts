import type { CircuitAt } from '../signals.ts';
import type { Branch } from './branch.ts';

/** The two states of everything that changes: nobody and nothing operates it, or somebody or something does. */
export type State = 'rest' | 'operated';

/** What changes a circuit, and by what: a person or a cam, metal that comes near, a coil, the part's own electronics. */
export type Mover = 'contact' | 'sensor' | 'relay' | 'output';

/**
 * What stands between the terminals of one circuit of a part, in each of its states. The nodes of its branches are
 * places in `ends`, and from there on nodes inside the part; the network that they are put into numbers them anew.
 */
export interface Element {
  readonly at: CircuitAt;
  /** Terminals of the part, in the order of the circuit's kind. */
  readonly ends: readonly string[];
  readonly rest: readonly Branch[];
  readonly operated: readonly Branch[];
  /** Undefined for what never changes. */
  readonly mover: Mover | undefined;
  /** For what works only while it is fed: between which ends, and with how many volts at least. */
  readonly fed: Fed | undefined;
  /** For inputs and coils: what they look at. */
  readonly reads: Reads | undefined;
  /** The figures that the sheet does not state and without which nothing can be solved. */
  readonly lacks: readonly string[];
}

interface Fed {
  readonly plus: number;
  readonly minus: number;
  readonly least: number;
  /** What is left of it while it is not fed. */
  readonly dead: readonly Branch[];
}

/** The quantity that an input looks at, between its first two ends or through them, and from where it is on and off. */
export interface Reads {
  readonly unit: 'V' | 'A';
  /** Whether it looks at the size alone, because it does not care which way round it is wired. */
  readonly eitherWay: boolean;
  /** Surely on from here; `below` says that on is the side of small values. Undefined where the sheet does not say. */
  readonly on: number | undefined;
  readonly off: number | undefined;
  readonly below: boolean;
  /** The most that it bears, where the sheet says so. */
  readonly most: number | undefined;
}

/** An element without the fields that most kinds have no use for. */
export type Plain = Pick<Element, 'rest'> & Partial<Omit<Element, 'at' | 'ends' | 'rest'>>;
