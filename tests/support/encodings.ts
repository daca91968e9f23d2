import type { Position } from 'vscode-languageserver/node';

/** The ways in which a client may count the characters of a line. */
export const ENCODINGS = ['utf-8', 'utf-16', 'utf-32'] as const;
export type Encoding = (typeof ENCODINGS)[number];

/** How many characters a text has in an encoding, by the language's own means. */
export function lengthIn(text: string, encoding: Encoding): number {
  if (encoding === 'utf-8') return Buffer.byteLength(text);
  return encoding === 'utf-32' ? Array.from(text).length : text.length;
}

/** The position of an offset in UTF-16 units, in an encoding. */
export function positionIn(text: string, offset: number, encoding: Encoding): Position {
  const lines = text.slice(0, offset).split(/\r\n|\n/);
  return { line: lines.length - 1, character: lengthIn(lines.at(-1) ?? '', encoding) };
}
