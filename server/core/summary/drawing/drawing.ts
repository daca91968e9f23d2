/**
 * The wiring drawing before it is laid out: parts as blocks with their terminals in printed order, and the links
 * between them. Plain data that can be sent to the page; places are asked for by id when something is clicked.
 */
export interface Drawing {
  readonly parts: readonly DrawnPart[];
  readonly links: readonly DrawnLink[];
}

export interface DrawnPart {
  readonly id: string; // part:NAME
  readonly name: string;
  readonly title: string; // what kind of part it is
  readonly partClass: string; // the class of its sheet: controller, drive, motor, ...
  readonly place?: string; // `at:`
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
  readonly kind: 'power' | 'signal' | 'motor' | 'mains' | 'earth';
}
