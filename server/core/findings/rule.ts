import type { Analysis } from '../analysis.ts';
import type { Data, Fix, Related } from '../problem.ts';
import type { Span } from '../syntax/node.ts';

/** An error cannot work or can damage a part; a warning works until something changes; a hint is advice. */
export type Severity = 'error' | 'warning' | 'hint';

/** One place where a rule found something, with the figures that its message needs. */
export interface Found {
  readonly at: Span;
  readonly data: Data;
  readonly related?: readonly Related[];
  /** May be a getter: cures that have to be solved again are looked for when they are asked for. */
  readonly fixes?: readonly Fix[];
}

/** A kind of finding. Each lives in a folder of its own with its page and executed examples. */
export interface Rule {
  /** family/name; stable, since people silence and search by it. */
  readonly code: string;
  readonly severity: Severity;
  /** One line for lists: what is wrong, without figures. */
  readonly title: string;
  /** Finds every case in one analysed file. Never throws; the same file gives the same list. */
  readonly find: (analysis: Analysis) => Iterable<Found>;
  /** What is wrong, why it matters here with the figures, what to do. Reads nothing but the data. */
  readonly say: (data: Data) => string;
}

/** A finding as every view shows it. */
export interface Finding extends Found {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly title: string;
}
