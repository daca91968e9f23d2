/**
 * The wiring drawing before it is laid out: parts as blocks with their terminals in printed order, and the links
 * between them. Plain data that can be sent to the page; places are asked for by id when something is clicked.
 */
export interface Drawing {
  readonly parts: readonly DrawnPart[];
  readonly links: readonly DrawnLink[];
  /** The ways of signals from end to end: the ids of the links of each. */
  readonly ways?: readonly (readonly string[])[];
  /** Terminals of one part between which current passes on: fuses and contacts. */
  readonly passes?: readonly (readonly [string, string])[];
}

/** What a link is there for, so that one thing can be looked at by itself. */
export type Group = 'power' | 'axes' | 'inputs' | 'spindle';

export interface DrawnPart {
  readonly id: string; // part:NAME
  readonly name: string;
  readonly title: string; // what kind of part it is
  readonly partClass: string; // the class of its sheet: controller, drive, motor, ...
  readonly place?: string; // `at:`
  readonly rail?: boolean; // all its terminals are one
  readonly terminals: readonly DrawnTerminal[];
}

export interface DrawnTerminal {
  readonly id: string; // terminal:PART.TERMINAL
  readonly name: string;
  readonly group: string;
  readonly wired: boolean;
}

export interface DrawnLink {
  readonly id: string; // link:N of the n-th link, or its label
  readonly from: string; // a terminal's id
  readonly to: string;
  readonly colour?: string; // IEC 60757 letters
  readonly label?: string;
  readonly cable?: string;
  readonly group?: Group;
  readonly kind: 'power' | 'signal' | 'motor' | 'mains' | 'earth';
}
