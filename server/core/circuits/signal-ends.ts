import { CIRCUIT_KINDS } from '../../../schemas/index.ts';
import type { Circuit } from '../model/sheet.ts';

/** Kinds that let current through or not, besides the outputs proper. */
const SWITCHES: ReadonlySet<string> = new Set(['contact', 'changeover', 'sensor', 'two-wire-sensor']);
/** Kinds that do something with what arrives, besides the inputs proper. */
const ACTORS: ReadonlySet<string> = new Set(['coil', 'winding', 'three-phase-in', 'mains-in', 'power-in']);
/** Kinds of which every end belongs to the signal; of the others the first end does, and the rest are returns and supplies. */
const ALL_ENDS: ReadonlySet<string> = new Set([
  'line-out',
  'line-in',
  'phase-out',
  'winding',
  'three-phase-out',
  'three-phase-in',
  'contact',
  'changeover',
  'two-wire-sensor',
  'opto-in',
  'coil',
]);

/** True for circuits from which a signal comes: outputs, contacts and sensors. */
export function gives({ kind }: Circuit): boolean {
  return CIRCUIT_KINDS.get(kind)?.group === 'output' || SWITCHES.has(kind);
}

/** True for circuits in which a signal ends: inputs, coils, windings, and supplies that something switches. */
export function takes({ kind }: Circuit): boolean {
  return CIRCUIT_KINDS.get(kind)?.group === 'input' || ACTORS.has(kind);
}

/** The terminals of a circuit that carry its signal. */
export function signalEnds({ kind, ends }: Circuit): string[] {
  const names = ends.map((end) => end.text);
  if (kind === 'sensor') return names.slice(2, 3); // plus, minus, out
  return ALL_ENDS.has(kind) ? names : names.slice(0, 1);
}
