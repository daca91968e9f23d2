import { later } from '../language/say.ts';
import type { Sheet } from '../model/sheet.ts';
import { driveBench, motorBench } from './axis.ts';
import { controllerBench } from './controller.ts';
import { type Draft, writeBench } from './draft.ts';
import { handwheelBench } from './handwheel.ts';
import { fuseBench, loadBench, relayBench, supplyBench } from './power.ts';
import { converterBench, spindleBench } from './spindle.ts';
import { switchingBench } from './switching.ts';

/*
 * A bench for one part: a machine in which everything else is known, so that what is not computed is for want of a
 * figure on its sheet. It is a text like any other, and what is lacking is found by computing it.
 */

interface Bench {
  readonly draft: (sheet: Sheet) => Draft;
  /** Findings that the bench provokes: a check that has the part's figure speaks, and one that lacks it is silent. */
  readonly checks?: readonly string[];
  /** Circuits that a part of the class mostly has, by kind or by what they do, with what they are needed for. */
  readonly expects: Readonly<Record<string, string>>;
}

const ACTS = later`what an input sees at rest, operated, and with a wire broken`;

/** By class of part; a terminal strip has no figure from which anything is computed. */
const BENCHES: Readonly<Record<string, Bench>> = {
  drive: {
    draft: driveBench,
    expects: {
      pulse: later`pulse rate and timing of the pulses`,
      direction: later`timing of the direction`,
      'phase-out|mains-in': later`what current its phases bear`,
      'power-in|mains-in': later`its load, and the speed from which the torque falls`,
    },
  },
  motor: { draft: motorBench, expects: { winding: later`torque at speed, and the right current` } },
  controller: {
    draft: controllerBench,
    expects: {
      pulse: later`pulse rate, top feed and timing of an axis`,
      direction: later`timing of the direction`,
    },
  },
  switch: { draft: switchingBench, expects: { 'contact|changeover': ACTS } },
  sensor: { draft: switchingBench, expects: { 'sensor|two-wire-sensor': ACTS } },
  probe: { draft: switchingBench, expects: { 'contact|sensor': ACTS } },
  'emergency-stop': { draft: switchingBench, expects: { contact: later`what loses its power by it` } },
  handwheel: {
    draft: handwheelBench,
    expects: {
      'handwheel A': later`whether its signals suit an input`,
      'handwheel B': later`the same of the second signal`,
    },
  },
  converter: {
    draft: converterBench,
    expects: {
      'spindle speed': later`speed by the signal`,
      'three-phase-out': later`whether the motor suits it`,
    },
  },
  spindle: { draft: spindleBench, expects: { 'three-phase-in': later`whether the converter suits it` } },
  supply: {
    draft: supplyBench,
    checks: ['power/overloaded'],
    expects: { 'power-out': later`voltage and load of what it feeds` },
  },
  relay: {
    draft: relayBench,
    checks: ['level/contact-overloaded', 'level/output-overloaded'],
    expects: {
      'coil|opto-in': later`whether it is turned on`,
      'contact|changeover': later`what it switches`,
    },
  },
  fuse: {
    draft: fuseBench,
    checks: ['wire/fuse-below-load'],
    expects: { fuse: later`the wires that it guards` },
  },
  breaker: {
    draft: fuseBench,
    checks: ['wire/fuse-below-load'],
    expects: { fuse: later`the wires that it guards` },
  },
  load: {
    draft: loadBench,
    expects: { 'power-in|coil|mains-in|resistor|three-phase-in': later`what it draws` },
  },
};

const benchOf = (partClass: string): Bench | undefined =>
  Object.hasOwn(BENCHES, partClass) ? BENCHES[partClass] : undefined;

/** The text of a bench for a sheet that stands beside it; undefined for a class that has none. */
export function benchFor(sheet: Sheet, name: string): string | undefined {
  const bench = benchOf(sheet.partClass);
  return bench && writeBench(name, bench.draft(sheet));
}

/** The findings that a bench provokes. */
export function checksOf({ partClass }: Sheet): ReadonlySet<string> {
  return new Set(benchOf(partClass)?.checks);
}

/** A circuit that parts of some class mostly have: one of some kinds, or one that does something. */
export interface ExpectedCircuit {
  readonly words: readonly string[];
  /** What it is needed for. */
  readonly about: string;
}

/** The circuits that parts of a class mostly have. */
export function expectedCircuits(partClass: string): ExpectedCircuit[] {
  return Object.entries(benchOf(partClass)?.expects ?? {}).map(([words, about]) => ({
    words: words.split('|'),
    about,
  }));
}

/** Those that a sheet has not. */
export function missingCircuits({ partClass, circuits }: Sheet): ExpectedCircuit[] {
  const all = [...circuits.values()];
  const has = (word: string) => all.some(({ kind, does }) => kind === word || does?.word === word);
  return expectedCircuits(partClass).filter(({ words }) => !words.some(has));
}
