import { analyse } from '../../../server/core/analysis.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import type { Derived, Values } from '../../../server/core/values/derived.ts';
import { worldOf } from '../../support/world.ts';

/** What differs from the usual small machine; each text is YAML as it stands in the definition. */
export interface Differences {
  /** The body of axis X after drive and motor, in flow style without the braces. */
  readonly axis?: string;
  readonly letter?: string;
  readonly supply?: string;
  readonly driveBasis?: string;
  readonly driveSet?: string;
  readonly driveSettings?: string;
  readonly driveInputs?: string;
  readonly motorFacts?: string;
  readonly winding?: string;
  readonly pulse?: string;
  readonly panelSettings?: string;
  readonly panelSet?: string;
  readonly panelCircuits?: string;
  readonly two?: boolean;
  /** Further parts, whole lines with two blanks before them. */
  readonly parts?: string;
  readonly wiring?: string;
  /** Further sections. */
  readonly more?: string;
}

export const AXIS = [
  'travel: 600 mm',
  'screw: { lead: 10 mm, root: 12 mm, length: 800 mm, ends: fixed-supported, efficiency: 90 % }',
  'mass: 20 kg',
  'friction: 0.05',
  'force: 100 N',
  'feed: 6000 mm/min',
  'acceleration: 500 mm/s2',
  'homing: { feed: 1200 mm/min }',
].join(', ');

/** A machine with one axis, all of whose parts stand in its own text. */
export function smallMachine(of: Differences = {}): string {
  const letter = of.letter ?? 'X';
  const drive = (name: string) =>
    `  ${name}: { class: drive, terminals: { in: [P+, P-, D+, D-], power: [V+, V-] }, circuits: { ${of.driveInputs ?? 'pulse: { opto-in: [P+, P-], does: pulse }, direction: { opto-in: [D+, D-], does: direction }'}, supply: { power-in: [V+, V-], voltage: 20..80 V, current: 3 A } }, settings: { ${of.driveSettings ?? 'microsteps: { is: microsteps, default: 8 }, phase-current: { is: phase-current, unit: A, default: 3 A }'} }, facts: { ${of.driveBasis ?? 'current-basis: rms'} }, set: { ${of.driveSet ?? ''} } }`;
  const motor = (name: string) =>
    `  ${name}: { class: motor, terminals: { leads: [A+, A-] }, circuits: { a: { winding: [A+, A-], ${of.winding ?? 'current: 4 A, inductance: 3 mH'} } }, facts: { ${of.motorFacts ?? 'step-angle: 1.8 deg, holding-torque: 2 N.m, inertia: 400 g.cm2, current-basis: rms'} } }`;
  return `machine: Small
parts:
  psu: { class: supply, terminals: { out: [V+, V-] }, circuits: { output: { power-out: [V+, V-], voltage: ${of.supply ?? '48 V'}, current: 10 A } } }
  panel: { class: controller, terminals: { axes: [5V, XP, XD, G], spindle: [SV] }, circuits: { five: { power-out: [5V, G], voltage: 5 V, current: 1 A }, pulse: { sink-out: [XP, G], does: pulse ${letter}, ${of.pulse ?? 'top-rate: 100 kHz'} }, direction: { sink-out: [XD, G], does: direction ${letter} }${of.panelCircuits ?? ''} }, settings: { ${of.panelSettings ?? ''} }, set: { ${of.panelSet ?? ''} } }
${drive('drive-1')}
${motor('motor-1')}
${of.two ? `${drive('drive-2')}\n${motor('motor-2')}\n` : ''}${of.parts ?? ''}
wiring:
  - psu.V+ -> drive-1.V+
  - psu.V- -> drive-1.V-
  - panel.5V -> drive-1.P+, drive-1.D+
  - panel.XP -> drive-1.P-
  - panel.XD -> drive-1.D-
${of.two ? '  - psu.V+ -> drive-2.V+\n  - psu.V- -> drive-2.V-\n' : ''}${of.wiring ?? ''}
axes:
  ${letter}: { drive: ${of.two ? '[drive-1, drive-2]' : 'drive-1'}, motor: ${of.two ? '[motor-1, motor-2]' : 'motor-1'}, ${of.axis ?? AXIS} }
${of.more ?? ''}
`;
}

/** The values of a text, run through the whole analysis. */
export function valuesOf(text: string): Values {
  const file = 'small.machine.yaml';
  const analysis = analyse(file, text, worldOf(new Map([[file, text]])), createTrees());
  if (analysis.problems.length > 0)
    throw new Error(analysis.problems.map(({ code, data }) => `${code} ${JSON.stringify(data)}`).join('\n'));
  return analysis.values;
}

/** One value, which must be there. */
export function valueAt(values: Values, address: string): Derived {
  const value = values.byAddress.get(address);
  if (!value) throw new Error(`${address} is not there: it needs ${values.missing.get(address)?.needs}`);
  return value;
}

/** The number at an address of a small machine, in the unit of the address. */
export function numberAt(of: Differences, address: string): number {
  return valueAt(valuesOf(smallMachine(of)), address).value;
}

/** What a value of a small machine lacks; undefined when it is there or was never asked for. */
export function needsOf(of: Differences, address: string): string | undefined {
  return valuesOf(smallMachine(of)).missing.get(address)?.needs;
}

/** The same figures in inches, pounds and pound-forces; whole inches are exact. */
const INCHES: readonly (readonly [metric: string, inches: string])[] = [
  ['travel: 600 mm', `travel: ${600 / 25.4} in`],
  ['lead: 10 mm', `lead: ${10 / 25.4} in`],
  ['root: 12 mm', `root: ${12 / 25.4} in`],
  ['length: 800 mm', `length: ${800 / 25.4} in`],
  ['mass: 20 kg', `mass: ${20 / 0.45359237} lb`],
  ['force: 100 N', `force: ${100 / 4.4482216152605} lbf`],
  ['feed: 6000 mm/min', `feed: ${6000 / 25.4} in/min`],
  ['acceleration: 500 mm/s2', `acceleration: ${500 / 25.4} in/s2`],
  ['feed: 1200 mm/min', `feed: ${1200 / 25.4} in/min`],
  ['backlash: 0.0508 mm, within: 0.0127 mm', 'backlash: 0.002 in, within: 0.0005 in'],
  [
    'asked: 254 mm, seen: 254.6 mm, within: 0.05 mm',
    `asked: 10 in, seen: ${254.6 / 25.4} in, within: ${0.05 / 25.4} in`,
  ],
];

/** A small machine with its figures in inches. */
export function inInches(metric: string): string {
  return INCHES.reduce((text, [from, to]) => text.replace(from, to), metric);
}
