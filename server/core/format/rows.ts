import { type Cell, readCells } from './cells.ts';
import type { Line } from './lines.ts';
import { splitLink } from './link.ts';
import { splitComment, splitKey } from './scan.ts';

/** A line taken apart for laying it out. */
export interface Row {
  readonly line: Line;
  /** The blanks before everything else. */
  readonly indent: number;
  /** Dashes, each with one blank. */
  readonly dashes: string;
  readonly cells: readonly Cell[];
  readonly comment: string;
  /** The blanks before the comment as typed. */
  readonly commentGap: number;
  /** True where the line is complete by itself, so that it may be lined up with its neighbours. */
  readonly whole: boolean;
  /** True where the value is a flow map or list. */
  readonly flow: boolean;
}

/** Takes an entry's line apart. What is not understood stays one cell and is written as it stands. */
export function readRow(line: Line, indent: number, inWiring: boolean): Row {
  const body = line.text.slice(line.indent);
  const marks = /^(?:-\s+)*(?:-$)?/.exec(body)?.[0] ?? '';
  const rest = body.slice(marks.length);
  const dashes = marks.replaceAll(/-\s*/g, '- ');
  const row = { line, indent, dashes };
  if (line.opens) {
    // The rest of the value is in other lines, so nothing but the end of this one can be tidied.
    return { ...row, ...NOTHING, cells: [verbatim(rest.trimEnd())] };
  }
  const { code, comment } = splitComment(rest);
  const text = code.trimEnd();
  const found = { ...row, comment, commentGap: code.length - text.length };
  const { cells, flow, whole } = readEntry(text, inWiring);
  return { ...found, cells, flow, whole };
}

const NOTHING = { comment: '', commentGap: 0, whole: false, flow: false };

const verbatim = (text: string): Cell => ({ label: 'end', text, gap: 0, least: 0 });

function readEntry(text: string, inWiring: boolean): Pick<Row, 'cells' | 'flow' | 'whole'> {
  const keyed = /^[{["']/.test(text) && !/^["']/.test(text) ? undefined : splitKey(text);
  if (!keyed) return readValue(text, inWiring);
  const key = `${keyed.key}:`;
  if (keyed.value === '') return { cells: [verbatim(key)], flow: false, whole: false };
  const value = readValue(keyed.value, inWiring);
  return { ...value, cells: [{ label: 'key', text: key, gap: keyed.gap, least: 1 }, ...value.cells] };
}

function readValue(text: string, inWiring: boolean): Pick<Row, 'cells' | 'flow' | 'whole'> {
  const flow = /^[{[]/.test(text) ? readCells(text, inWiring) : undefined;
  if (flow) return { cells: flow, flow: true, whole: true };
  if (inWiring && /^[^\s"'&*!|>{[].*->/.test(text))
    return { cells: readLink(text), flow: false, whole: true };
  return { cells: [verbatim(text)], flow: false, whole: !/^[|>&*!]/.test(text) };
}

function readLink(text: string): Cell[] {
  const { ends, gap, wire } = splitLink(text);
  return wire === '' ? [verbatim(ends)] : [{ label: 'link', text: ends, gap, least: 2 }, verbatim(wire)];
}
