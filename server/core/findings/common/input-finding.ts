import type { MachineAnalysis } from '../../analysis.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { say } from '../../language/say.ts';
import type { Data, Fix, Related } from '../../problem.ts';
import type { Span } from '../../syntax/node.ts';
import type { Found } from '../rule.ts';
import { withCures } from './cure.ts';
import { type Diagnosis, diagnose } from './diagnose.ts';
import { actorPlace, placeOf, sightData, thresholdPlace } from './sights.ts';
import { word } from './words.ts';

/** What a rule adds to the finding that all diagnoses of inputs have in common. */
export interface Particulars {
  readonly data?: Data;
  /** The threshold whose line in the datasheet is shown. */
  readonly threshold?: 'on' | 'off' | 'none';
  readonly related?: readonly Related[];
  /** Other inputs with the same mistake, which a fix must cure as well, and where the finding stands then. */
  readonly others?: readonly SolvedInput[];
  readonly at?: Span | undefined;
  readonly propose?: () => readonly (Fix | undefined)[];
}

/** The finding for a diagnosis: on the wire's line, with what was solved, the other end and the datasheet's line. */
export function findingFor(
  analysis: MachineAnalysis,
  { input, actor }: Diagnosis,
  { data = {}, threshold = 'on', related = [], others = [], at, propose = () => [] }: Particulars = {},
): Found {
  const names = new Set([input, ...others].map((each) => `${each.at.part.name}.${each.at.circuit.name}`));
  const found = {
    at: at ?? placeOf(analysis, input),
    data: { ...sightData(input), ...data },
    related: [
      ...actorPlace(analysis, actor?.part),
      ...related,
      ...(threshold === 'none' ? [] : [thresholdPlace(analysis, input, threshold)]),
    ],
  };
  const isSame = (after: MachineAnalysis) =>
    diagnose(after).some(
      ({ kind, input: { at: each } }) =>
        kind !== 'noise-margin' && names.has(`${each.part.name}.${each.circuit.name}`),
    );
  return withCures(analysis, found, propose, (after) => !isSame(after));
}

/** `panel.I3 (home X)`. */
export function nameInput(data: Data): string {
  const does = word(data, 'does');
  return does === '' ? word(data, 'input') : `${word(data, 'input')} (${does})`;
}

/** `At rest 0.0 V, operated 0.0 V`, or the one level that an input has on which nothing acts. */
export function sayLevels(data: Data): string {
  const operated = word(data, 'operated');
  return operated === ''
    ? say`always ${word(data, 'rest')}`
    : say`at rest ${word(data, 'rest')}, operated ${operated}`;
}
