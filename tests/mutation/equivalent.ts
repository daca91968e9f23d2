/** A change of the code that makes no difference to anybody, and why. */
export interface Equivalent {
  readonly file: string;
  /** The code that is changed, as it stands, and what it is changed to. */
  readonly original: string;
  readonly replacement: string;
  readonly because: string;
}

export const EQUIVALENT: readonly Equivalent[] = [
  {
    file: 'server/core/units/guess.ts',
    original: 'plain.length > LONGEST_GUESS',
    replacement: 'plain.length >= LONGEST_GUESS',
    because: 'the bound only spares work on long texts; no unit and no slip of one is nearly as long',
  },
  {
    file: 'server/core/motion/wire.ts',
    original: 'Math.abs(size / (listed * 1e-6) - 1) < 1e-6',
    replacement: 'Math.abs(size / (listed * 1e-6) - 1) <= 1e-6',
    because: 'the bound only takes up rounding, a thousand million times smaller; no size stands on it',
  },
  {
    file: 'server/core/motion/winding.ts',
    original: 'share <= 1',
    replacement: 'true',
    because: 'the logarithm of a number below zero, which a share above 1 leads to, is not a number either',
  },
];
