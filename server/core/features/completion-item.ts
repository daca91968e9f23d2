/** One thing that could be written at the cursor. */
export interface Completion {
  readonly label: string;
  readonly kind: 'key' | 'part' | 'terminal' | 'setting' | 'unit' | 'choice' | 'sheet' | 'colour' | 'snippet';
  readonly detail: string;
  /** May be a getter: it is read only of the item that somebody looks at. */
  readonly documentation: string;
  /** Replaces the text from `from` to `to`; of a snippet, with places to fill in (see snippets.ts). */
  readonly insert: string;
  readonly from: number;
  /** Smaller comes first. */
  readonly rank: number;
}

/** A completion with the end of what it replaces: the rest of a word that the cursor stands in. */
export interface PlacedCompletion extends Completion {
  readonly to: number;
}
