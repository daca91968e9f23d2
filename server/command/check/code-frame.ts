import type { Colours } from '../colours.ts';
import { printable } from '../colours.ts';
import type { Place } from '../lines.ts';
import type { Excerpt } from './excerpt.ts';

/** As wide as terminals usually are, less the line numbers. */
const WIDTH = 110;

/** The lines of a finding with their numbers, and carets under the place. */
export function printCodeFrame({ first, lines }: Excerpt, place: Place, colours: Colours): string {
  const margin = String(first + lines.length - 1).length;
  const shift = shiftFor(place, lines[place.line - first] ?? '');
  return lines
    .map((text, index) => {
      const number = first + index;
      const gutter = colours.faint(`  ${String(number).padStart(margin)} |`);
      const shown = `${gutter} ${cut(text, shift)}`.trimEnd();
      const marks = marksUnder(text, number, place, shift);
      return `${shown}\n${marks === '' ? '' : `${colours.faint(`  ${' '.repeat(margin)} |`)} ${colours.mark(marks)}\n`}`;
    })
    .join('');
}

/** How much of long lines is left out at their start, so that the place can be seen. */
function shiftFor({ column }: Place, text: string): number {
  return text.length > WIDTH && column > WIDTH / 2
    ? Math.min(column - WIDTH / 2, text.length - WIDTH) | 0
    : 0;
}

function cut(text: string, shift: number): string {
  const shown = printable(text.slice(shift, shift + WIDTH));
  return `${shift > 0 ? `…${shown.slice(1)}` : shown}${text.length > shift + WIDTH ? '…' : ''}`;
}

/** Carets under the part of a line that a place covers; nothing under lines that it does not touch. */
function marksUnder(text: string, number: number, place: Place, shift: number): string {
  if (number < place.line || number > place.endLine) return '';
  const indent = text.length - text.trimStart().length;
  const from = number === place.line ? place.column - 1 : indent;
  const to = number === place.endLine ? place.endColumn - 1 : text.trimEnd().length;
  const [left, right] = [Math.max(0, from - shift), Math.min(WIDTH, Math.max(to, from + 1) - shift)];
  return right > left ? ' '.repeat(left) + '^'.repeat(right - left) : '';
}
