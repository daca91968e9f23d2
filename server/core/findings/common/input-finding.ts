import type { MachineAnalysis } from '../../analysis.ts';
import type { Data, Fix, Related } from '../../problem.ts';
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
  readonly propose?: () => readonly (Fix | undefined)[];
}

/** The finding for a diagnosis: on the wire's line, with what was solved, the other end and the datasheet's line. */
export function findingFor(
  analysis: MachineAnalysis,
  { input, actor }: Diagnosis,
  { data = {}, threshold = 'on', related = [], propose = () => [] }: Particulars = {},
): Found {
  const { part, circuit } = input.at;
  const found = {
    at: placeOf(analysis, input),
    data: { ...sightData(input), ...data },
    related: [
      ...actorPlace(analysis, actor?.part),
      ...related,
      ...(threshold === 'none' ? [] : [thresholdPlace(analysis, input, threshold)]),
    ],
  };
  const isSame = (after: MachineAnalysis) =>
    diagnose(after).some(
      ({ kind, input: { at } }) =>
        kind !== 'noise-margin' && at.part.name === part.name && at.circuit.name === circuit.name,
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
    ? `always ${word(data, 'rest')}`
    : `at rest ${word(data, 'rest')}, operated ${operated}`;
}
