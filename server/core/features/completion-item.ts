/** One thing that could be written at the cursor. */
export interface Completion {
  readonly label: string;
  readonly kind: 'key' | 'part' | 'terminal' | 'setting' | 'unit' | 'choice' | 'sheet' | 'colour';
  readonly detail: string;
  readonly documentation: string;
  /** Replaces the text from `from` to the cursor. */
  readonly insert: string;
  readonly from: number;
  /** Smaller comes first. */
  readonly rank: number;
}
