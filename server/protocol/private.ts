/**
 * The requests between our server and the wiring summary page that the protocol does not have. The client passes
 * them on unread. The page says what it shows, the server answers with what differs; so the server keeps no state
 * for a page, and an edit that changes nothing sends nothing.
 */

import type { Section, SummaryItem } from '../core/summary/summary.ts';
import type { FileState } from '../core/world.ts';
import type { FolderEntry } from '../files/files.ts';

/** Page -> server: what differs from what I show? `have` maps the id of each item shown to its hash. */
export const SUMMARY_CHANGES = 'fettle/summaryChanges';
export interface SummaryChangesParams {
  readonly uri: string;
  readonly have: Readonly<Record<string, string>>;
}
export interface SummaryChanges {
  readonly title: string;
  readonly revision?: string;
  readonly broken: boolean;
  /** To be applied in order. Empty when nothing changed. */
  readonly patches: readonly SummaryPatch[];
}
export type SummaryPatch =
  | {
      readonly kind: 'put';
      readonly id: string;
      readonly hash: string;
      readonly section: Section;
      readonly after: string | null;
      readonly item: SummaryItem;
    }
  | { readonly kind: 'remove'; readonly id: string };

/** Server -> client: the summary of this document may have changed. */
export const SUMMARY_STALE = 'fettle/summaryStale';
export interface SummaryStale {
  readonly uri: string;
}

/** Page -> server: where in the text is the thing with this id? Null when it is nowhere. */
export const PLACE_OF = 'fettle/placeOf';
export interface PlaceOfParams {
  readonly uri: string;
  readonly id: string;
}
export interface PlaceOf {
  readonly uri: string;
  readonly range: { readonly start: Position; readonly end: Position };
}

/** Client -> server: which thing of the summary is at this position? Null when none is. */
export const THING_AT = 'fettle/thingAt';
export interface ThingAtParams {
  readonly uri: string;
  readonly position: Position;
}

/** Client -> server: what follows from the difference to these texts, the document's own and its sheets'? Null when it is not open. */
export const CONSEQUENCES = 'fettle/consequences';
export interface ConsequencesParams {
  readonly uri: string;
  readonly texts: readonly { readonly uri: string; readonly text: string }[];
}
export interface Consequences {
  readonly markdown: string;
}

/** Client -> server: what would these values change? Null when the document is not open. */
export const TRY_VALUES = 'fettle/tryValues';
export interface TryValuesParams {
  readonly uri: string;
  readonly changes: readonly { readonly path: string; readonly value: string }[];
}
export interface TriedValues {
  /** What would change, as a page; empty where the values cannot be tried. */
  readonly markdown: string;
  /** Why they cannot. */
  readonly refused?: string;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

/** Server -> client: what the status item shows after each check. */
export const CHECKED = 'fettle/checked';
export interface Checked {
  readonly uri: string;
  readonly errors: number;
  readonly warnings: number;
  readonly hints: number;
  /** What the check covered, in words, e.g. "14 parts, 62 links, 4 axes". */
  readonly covered: string;
}

/** Client -> server: what there is to choose from when a machine or a sheet is begun. */
export const START_CHOICES = 'fettle/startChoices';
export interface StartChoices {
  readonly mains: readonly string[];
  readonly carriers: readonly Choice[];
  readonly classes: readonly Choice[];
}
export interface Choice {
  readonly name: string;
  readonly about: string;
}

/** Client -> server: the text of a machine by its answers; null where that failed. */
export const NEW_MACHINE = 'fettle/newMachine';
export interface NewMachineParams {
  readonly name: string;
  readonly mains: string;
  readonly axes: readonly string[];
  /** A name of the carriers. */
  readonly carrier: string;
  readonly spindle: boolean;
}

/** Client -> server: the text of a part sheet by its answers; null where that failed. */
export const NEW_SHEET = 'fettle/newSheet';
export interface NewSheetParams {
  readonly part: string;
  readonly partClass: string;
  readonly source: string;
  readonly terminals: readonly string[];
}

/**
 * Server -> client, where the client alone reaches the files (a browser, a folder that is not on the disk) and said in
 * its initialization options that it reads them: what a file says, or why it cannot be read.
 */
export const READ_FILE = 'fettle/readFile';
export interface ReadFileParams {
  readonly uri: string;
}
export type FileAnswer = FileState;

/** Server -> client, likewise: what is in a folder. */
export const LIST_FOLDER = 'fettle/listFolder';
export interface ListFolderParams {
  readonly uri: string;
}
export type FolderAnswer = readonly FolderEntry[];
