import type { Random } from './random.ts';

/** Somebody at a text: types, cuts, pastes, renames, takes back. What was done last is named for whoever reads a failure. */
export interface Typist {
  readonly text: string;
  readonly did: string;
  /** Does one thing to the text. */
  readonly edit: () => void;
}

/** The text as its lines, and where a piece to paste may come from. */
interface Desk {
  readonly lines: string[];
  readonly random: Random;
  readonly donors: readonly string[];
}

/** What is typed in one go: signs that mean something to YAML or to the format, and what slips. */
const TYPED = [
  ' ',
  '  ',
  ':',
  ': ',
  ', ',
  '- ',
  '{ ',
  ' }',
  '[',
  ']',
  '"',
  "'",
  '#',
  ' # ',
  '&a ',
  '*a',
  '<<: ',
  '->',
  '.',
  '..',
  '~',
  '|',
  '\t',
  '\r',
  '🛠',
  '0',
  '7',
  'm',
  ' mm',
  'null',
  '# fettle: allow ',
];

/** Pairs of words of the format of which one is easily written for the other. */
const TURNED: readonly (readonly [string, string])[] = [
  ['normally-closed', 'normally-open'],
  ['on-when-open', 'on-when-closed'],
  [': on,', ': off,'],
  ['mm2 BU', 'mm2 BN'],
  [' -> ', ' - '],
  [' mm,', ' in,'],
  ['V+', 'V-'],
  ['X', 'Y'],
];

const lineOf = ({ lines, random }: Desk): number => random.below(lines.length);
const pieceOf = ({ lines, random }: Desk): string[] => {
  const from = random.below(lines.length);
  return lines.slice(from, from + 1 + random.below(6));
};
const placeIn = (line: string, random: Random): number => random.below(line.length + 1);

/** The things that a person does to a text, by their names. */
const ACTS: Readonly<Record<string, (desk: Desk) => void>> = {
  type: ({ lines, random }) => {
    const at = random.below(lines.length);
    const line = lines[at] ?? '';
    const place = placeIn(line, random);
    lines[at] = line.slice(0, place) + random.oneOf(TYPED) + line.slice(place);
  },
  figure: ({ lines, random }) => {
    const there = lines.flatMap((line, at) => (/\d/.test(line) ? [at] : []));
    if (there.length === 0) return;
    const at = random.oneOf(there);
    const line = lines[at] ?? '';
    const place = random.oneOf([...line.matchAll(/\d/g)]).index;
    const more = String(random.below(10));
    lines[at] = line.slice(0, place) + more + line.slice(place + random.below(2));
  },
  /** A comment behind a line, which grows with every letter. */
  note: ({ lines, random }) => {
    const at = random.below(lines.length);
    const line = lines[at] ?? '';
    lines[at] = line.includes(' # ') ? `${line}x` : `${line} # x`;
  },
  /** More or fewer blanks between two words. */
  space: ({ lines, random }) => {
    const at = random.below(lines.length);
    const gaps = [...(lines[at] ?? '').matchAll(/(?<=\S) +(?=\S)/g)];
    if (gaps.length === 0) return;
    const { 0: gap, index } = random.oneOf(gaps);
    const line = lines[at] ?? '';
    const other = gap.length > 1 && random.below(2) === 0 ? gap.slice(1) : `${gap} `;
    lines[at] = line.slice(0, index) + other + line.slice(index + gap.length);
  },
  erase: ({ lines, random }) => {
    const at = random.below(lines.length);
    const line = lines[at] ?? '';
    const place = placeIn(line, random);
    lines[at] = line.slice(0, place) + line.slice(place + 1 + random.below(5));
  },
  cut: (desk) => void desk.lines.splice(lineOf(desk), 1 + desk.random.below(4)),
  repeat: (desk) => {
    const from = lineOf(desk);
    const piece = desk.lines.slice(from, from + 1 + desk.random.below(4));
    desk.lines.splice(from, 0, ...piece);
  },
  move: (desk) => {
    const piece = desk.lines.splice(lineOf(desk), 1 + desk.random.below(4));
    desk.lines.splice(desk.random.below(desk.lines.length + 1), 0, ...piece);
  },
  copy: (desk) => void desk.lines.splice(lineOf(desk), 0, ...pieceOf(desk)),
  paste: ({ lines, random, donors }) => {
    const donor = random.oneOf(donors).split('\n');
    lines.splice(random.below(lines.length + 1), 0, ...pieceOf({ lines: donor, random, donors }));
  },
  indent: ({ lines, random }) => {
    const from = random.below(lines.length);
    const inwards = random.below(2) === 0;
    for (let at = from; at < Math.min(lines.length, from + 1 + random.below(3)); at++)
      lines[at] = inwards ? `  ${lines[at]}` : (lines[at] ?? '').replace(/^ {1,2}/, '');
  },
  join: ({ lines, random }) => {
    const at = random.below(lines.length);
    lines.splice(at, 2, `${lines[at] ?? ''} ${(lines[at + 1] ?? '').trim()}`);
  },
  split: ({ lines, random }) => {
    const at = random.below(lines.length);
    const line = lines[at] ?? '';
    const place = placeIn(line, random);
    lines.splice(at, 1, line.slice(0, place), line.slice(place));
  },
  rename: ({ lines, random }) => {
    const words = (lines[random.below(lines.length)] ?? '').match(/[a-zA-Z][\w-]*/g);
    if (!words) return;
    const word = random.oneOf(words);
    const other = random.oneOf([`${word}-b`, 'X', 'panel', '__proto__', word.slice(1) || 'a']);
    const everywhere = random.below(2) === 0;
    for (let at = 0; at < lines.length; at++) {
      const line = lines[at] ?? '';
      if (!line.includes(word)) continue;
      lines[at] = everywhere ? line.replaceAll(word, other) : line.replace(word, other);
      if (!everywhere) return;
    }
  },
  /** Parts come to have a sheet that is not there, and all of them their own again. */
  sheet: ({ lines, random }) => {
    const named = lines.flatMap((line, at) => (/\bsheet: *\S/.test(line) ? [at] : []));
    if (named.length === 0) return;
    if (random.below(3) === 0)
      for (const at of named) lines[at] = (lines[at] ?? '').replace(/(\bsheet: *)~+/, '$1');
    else {
      const at = random.oneOf(named);
      lines[at] = (lines[at] ?? '').replace(/\bsheet: */, '$&~');
    }
  },
  turn: ({ lines, random }) => {
    const [one, other] = random.oneOf(TURNED);
    const [from, to] = random.below(2) === 0 ? [one, other] : [other, one];
    const there = lines.flatMap((line, at) => (line.includes(from) ? [at] : []));
    if (there.length === 0) return;
    const at = random.oneOf(there);
    lines[at] = (lines[at] ?? '').replace(from, to);
  },
  swap: ({ lines, random }) => {
    const end = /-> ([\w-]+\.[\w+-]+)/;
    const links = lines.flatMap((line, at) => (end.test(line) ? [at] : []));
    if (links.length === 0) return;
    const [a, b] = [random.oneOf(links), random.oneOf(links)];
    const [ofA = '', ofB = ''] = [end.exec(lines[a] ?? '')?.[0], end.exec(lines[b] ?? '')?.[0]];
    lines[a] = (lines[a] ?? '').replace(ofA, () => ofB);
    if (a !== b) lines[b] = (lines[b] ?? '').replace(ofB, () => ofA);
  },
};

/** The names of all that a typist does, beside taking back. */
export const DEEDS: readonly string[] = Object.keys(ACTS);

/** A text after one deed; the same random numbers give the same text. */
export function doOnce(text: string, deed: string, random: Random, donors: readonly string[]): string {
  const lines = text.split('\n');
  ACTS[deed]?.({ lines, random, donors });
  return lines.join('\n');
}

/**
 * Somebody who works at a text for long. One thing in five is taken back, by one to six steps, and now and then all,
 * so that the text stays much like what it began as.
 * @param donors texts from which pieces are pasted
 */
export function createTypist(start: string, random: Random, donors: readonly string[] = [start]): Typist {
  const past = [start];
  let did = 'nothing';
  const text = (): string => past.at(-1) ?? start;
  const edit = (): void => {
    if (past.length > 1 && random.below(5) === 0) {
      const steps = random.below(10) === 0 ? past.length : 1 + random.below(6);
      past.length = Math.max(1, past.length - steps);
      did = 'undo';
      return;
    }
    did = random.oneOf(DEEDS);
    past.push(doOnce(text(), did, random, donors));
  };
  return {
    get text() {
      return text();
    },
    get did() {
      return did;
    },
    edit,
  };
}
