import { printLink } from './link.ts';
import { endOfQuoted } from './scan.ts';

/** A piece of a line that may stand in a column: it ends before the blanks that lead to the next one. */
export interface Cell {
  /** What the cell holds; cells in one column hold the same. */
  readonly label: string;
  readonly text: string;
  /** The blanks that follow it as typed. */
  readonly gap: number;
  /** The least blanks to follow it. */
  readonly least: number;
}

interface Open {
  readonly bracket: '{' | '[';
  key: string;
  index: number;
}

const CLOSER = { '{': '}', '[': ']' } as const;

/**
 * Cuts a flow map or list that stands on one line at its commas, at whatever depth, and spaces each piece evenly.
 * Undefined where the text is not exactly one collection.
 */
export function readCells(text: string, inWiring: boolean): Cell[] | undefined {
  const cells: Cell[] = [];
  const open: Open[] = [];
  let piece = '';
  let glue = ''; // what has to stand before the next scalar or bracket
  let label = '';
  for (let at = 0; at < text.length; ) {
    const char = text[at] as string;
    const inner = open.at(-1);
    if (/\s/.test(char)) {
      at++;
      continue;
    }
    if (char === '{' || char === '[') {
      open.push({ bracket: char, key: '', index: 0 });
      piece += glue + char;
      glue = char === '{' ? ' ' : '';
      at++;
    } else if (!inner) return undefined;
    else if (char === '}' || char === ']') {
      if (char !== CLOSER[inner.bracket]) return undefined;
      const empty = piece.endsWith(inner.bracket);
      piece += char === '}' && !empty ? ` ${char}` : char;
      if (label === '') label = labelOf(open);
      open.pop();
      glue = ' ';
      at++;
    } else if (char === ',') {
      const next = /^\s*/.exec(text.slice(at + 1))?.[0].length ?? 0;
      cells.push({ label: label === '' ? labelOf(open) : label, text: `${piece},`, gap: next, least: 1 });
      inner.index++;
      label = '';
      piece = '';
      glue = '';
      at++;
    } else if (char === ':' && /^:(?:[\s,[\]{}]|$)|^:/.test(text.slice(at)) && piece !== '') {
      inner.key = piece.slice(piece.lastIndexOf(' ') + 1);
      piece += ':';
      glue = ' ';
      at++;
    } else {
      const end = char === '"' || char === "'" ? endOfQuoted(text, at) : endOfPlain(text, at);
      const scalar = text.slice(at, end).trimEnd();
      if (scalar === '') return undefined;
      piece +=
        glue +
        (inWiring && scalar.includes('->') && char !== '"' && char !== "'" ? printLink(scalar) : scalar);
      glue = ' ';
      at = end;
    }
    if (open.length === 0)
      return text.slice(at).trim() === '' ? [...cells, { label, text: piece, gap: 0, least: 0 }] : undefined;
  }
  return undefined;
}

/** In flow collections a plain scalar ends at a bracket, a comma, or a colon that is followed by a blank. */
function endOfPlain(text: string, from: number): number {
  const found = /[,[\]{}]|:(?=[\s,[\]{}]|$)/.exec(text.slice(from));
  return found ? from + found.index : text.length;
}

function labelOf(open: readonly Open[]): string {
  return open.map(({ bracket, key, index }) => (bracket === '{' ? key : String(index))).join('.');
}
