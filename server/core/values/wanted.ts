import { say } from '../language/say.ts';
import type { Input } from './derived.ts';

/** What the definition wants of a setting that is a number, before the part's steps and decimals. */
export interface Wanted {
  /** In SI units. */
  readonly si: number;
  readonly formula: string;
  /** The first is the one that the value follows from. */
  readonly inputs: readonly Input[];
  /** `exact` settings must be equal up to their rounding; `least` ones may be larger, `most` ones smaller. */
  readonly rule: 'exact' | 'least' | 'most';
  /** Which way an exact value goes that cannot be hit: the safe one. */
  readonly towards: 'nearest' | 'down';
  readonly source: string;
}

/** What the definition wants of a setting that takes words. */
export interface WantedWord {
  readonly word: string;
  readonly inputs: readonly Input[];
  readonly source: string;
}

/** A value that is taken over from one input. */
export function takeOver(
  from: Input | undefined,
  towards: Wanted['towards'] = 'nearest',
): Wanted | undefined {
  return (
    from && {
      si: from.value,
      formula: `{${from.name}}`,
      inputs: [from],
      rule: 'exact',
      towards,
      source: say`follows from the definition, rounded as the part shows it`,
    }
  );
}
