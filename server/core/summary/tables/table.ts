import type { ViewElement } from '../view.ts';

/** A table as data: page, report, CSV and Markdown are all printed from it. */
export interface Table {
  readonly title: string;
  /** The id of the thing that the title names, where it names one. */
  readonly titleId?: string;
  /** A line under the title. */
  readonly about?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** A line below the table. */
  readonly note?: string;
  /** What is said in place of a table without rows. */
  readonly empty?: string;
}

export interface Column {
  readonly title: string;
  /** Numbers stand on the right and are sorted by size. */
  readonly number?: boolean;
}

export interface Row {
  /** The id of the thing that the row is about. */
  readonly id?: string;
  /** True for what is there but not in use. */
  readonly quiet?: boolean;
  /** A box that can be ticked in front of the row. A tick belongs to what its id says: another value is a new box. */
  readonly tick?: { readonly id: string; readonly says: string };
  /** In the order of the columns; the first names the row. */
  readonly cells: readonly Cell[];
}

/** A plain text; or a text that is shown in another way, with the working of its number. */
export type Cell = string | { readonly text: string; readonly view?: ViewElement; readonly working?: string };

/** What a cell says. */
export function textOf(cell: Cell | undefined): string {
  return typeof cell === 'string' ? cell : (cell?.text ?? '');
}

/** Stands in cells that have nothing to say; files get an empty field in its place. */
export const NOTHING = '–';

/** Joins words with commas; nothing where there are none. */
export function joinWords(words: readonly (string | undefined)[]): string {
  return [...new Set(words.filter((word) => word !== undefined && word !== ''))].join(', ') || NOTHING;
}
