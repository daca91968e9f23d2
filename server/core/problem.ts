import type { Span } from './syntax/node.ts';
import type { FileId } from './world.ts';

/** What a finding's message is made from: figures and words only, so that it can be sent, stored and translated. */
export type Data = Readonly<Record<string, string | number | boolean | readonly string[]>>;

/** One replacement of a stretch of text; `at` with equal ends is an insertion. */
export interface Edit {
  readonly at: Span;
  readonly text: string;
}

/** A file that a change makes. One that is there already is left alone. */
export interface NewFile {
  readonly file: FileId;
  readonly text: string;
}

/** A replacement in another file than the one that was analysed, in offsets of that file's text. */
export interface EditElsewhere {
  readonly file: FileId;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** A change that cures a finding. A safe one keeps the meaning or restores the only possible one: fix-all may take it. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly safe: boolean;
  readonly newFiles?: readonly NewFile[];
  readonly elsewhere?: readonly EditElsewhere[];
}

/** Another place that has to do with a finding: the other end, the datasheet line, the first of two. */
export interface Related {
  readonly file?: string; // the file of another text; absent means the same file
  readonly at: Span;
  readonly note: string;
}

/**
 * Something that a reader of the text noticed. It has no words yet: the finding with the same code
 * (see findings/) says what is wrong, why it matters and what to do.
 */
export interface Problem {
  readonly code: string; // family/name, e.g. unit/missing
  readonly at: Span;
  readonly data: Data;
  readonly fixes?: readonly Fix[];
  readonly related?: readonly Related[];
}
