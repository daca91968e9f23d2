/** A change of the code that makes no difference to anybody, and why. */
export interface Equivalent {
  readonly file: string;
  /** The code that is changed, as it stands, and what it is changed to. */
  readonly original: string;
  readonly replacement: string;
  readonly because: string;
}

export const EQUIVALENT: readonly Equivalent[] = [];
