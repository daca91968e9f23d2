import type fc from 'fast-check';

/** Something that is tried with many cases. */
export interface Target<Case = unknown> {
  readonly name: string;
  /** What its cases are, for whoever reads the report. */
  readonly about: string;
  /** How many of a run's cases it gets, against the others. */
  readonly share: number;
  readonly cases: fc.Arbitrary<Case>;
  /** Tries one case. @throws when something is wrong with it */
  readonly check: (one: Case) => void | Promise<void>;
  /** What to store of a case, so that it can be tried again by `replay`. */
  readonly store: (one: Case) => unknown;
  readonly replay: (stored: unknown) => void | Promise<void>;
  /** Ends what it started. */
  readonly stop?: () => Promise<void>;
}
