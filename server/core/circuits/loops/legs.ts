import type { Circuit } from '../../model/sheet.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import { figure, says } from '../solve/figures.ts';

/** One way for current through a circuit, between two of its ends; an end beyond the last is a node inside the part. */
export interface LegShape {
  readonly from: number;
  readonly to: number;
  /** The volts that it drives by itself: none for what is only passed through, `DRIVES` where nobody can tell. */
  readonly drives: number;
  /** Whether current flows only from the first to the second. */
  readonly isOneWay: boolean;
}

/** Drives a current through whatever closes its loop. */
export const DRIVES = Number.POSITIVE_INFINITY;

const through = (from: number, to: number, drives = 0): LegShape => ({ from, to, drives, isOneWay: false });
const onlyFrom = (from: number, to: number): LegShape => ({ from, to, drives: 0, isOneWay: true });

/** Circuits whose two ends belong together, and that give nothing by themselves. */
const PASSED: ReadonlySet<string> = new Set([
  'power-in',
  'mains-in',
  'contact',
  'line-in',
  'pulled-down-in',
  'two-wire-sensor',
  'analog-in',
  'coil',
  'resistor',
  'winding',
]);

/** Circuits that drive a current between their two ends. */
const DRIVING: ReadonlySet<string> = new Set(['power-out', 'line-out', 'analog-out', 'phase-out']);

/**
 * The ways through a circuit, with every contact closed and every output on. Kinds that only join terminals (`joined`,
 * `fuse`) form the nets, and those with one end (`earth`, `screen`) carry no current that comes back.
 */
export const legsOf = keptBy((circuit: Circuit): readonly LegShape[] => {
  const { kind } = circuit;
  if (PASSED.has(kind)) return [through(0, 1)];
  if (DRIVING.has(kind)) return [through(0, 1, DRIVES)];
  switch (kind) {
    case 'pulled-up-in':
      return [through(0, 1, figure(circuit, 'pull') ?? DRIVES)];
    case 'sink-out':
      return [onlyFrom(0, 1)];
    // Of an output that drives both ways the side that drives from plus: with both, it would be a loop by itself.
    case 'push-pull-out':
    case 'source-out':
      return [onlyFrom(1, 0)];
    case 'opto-in':
      return [says(circuit, 'either-way') ? through(0, 1) : onlyFrom(0, 1)];
    case 'changeover':
      return [through(0, 1), through(0, 2)];
    case 'sensor':
      return [
        through(0, 1),
        circuit.figures.text('switching')?.value === 'npn' ? onlyFrom(2, 1) : onlyFrom(0, 2),
      ];
    case 'three-phase-out':
      return [0, 1, 2].map((end) => through(end, 3, DRIVES));
    case 'three-phase-in':
      return [0, 1, 2].map((end) => through(end, 3));
    default:
      return [];
  }
});

/** Circuits that are there to let a current flow through them: without it they do not do what they are for. */
const CONSUMING: ReadonlySet<string> = new Set([
  'power-in',
  'mains-in',
  'line-in',
  'pulled-up-in',
  'pulled-down-in',
  'opto-in',
  'analog-in',
  'coil',
  'winding',
  'three-phase-in',
]);

/** Whether a leg needs a current; of a sensor that is what feeds it, and not its output. A load may be a resistor. */
export function consumes({ kind }: Circuit, { from, to }: LegShape, partClass: string): boolean {
  if (kind === 'resistor') return partClass === 'load';
  return CONSUMING.has(kind) || (kind === 'sensor' && from === 0 && to === 1);
}
