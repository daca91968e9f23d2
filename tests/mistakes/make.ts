import type { Example } from '../support/examples.ts';
import type { Mistake } from './mistake.ts';

/** A line of a file, counted from 1. */
export interface Line {
  readonly file: string;
  readonly line: number;
}

/** An example with one mistake made in it. */
export interface Mistaken {
  readonly files: ReadonlyMap<string, string>;
  /** Where the finding must stand. */
  readonly look: Line;
  /** Where a line of the text with the mistake stood before it was made. */
  readonly before: (place: Line) => Line;
}

/** Makes a mistake in an example. Throws where the words of the mistake do not name exactly one place. */
export function makeMistake({ files }: Example, mistake: Mistake): Mistaken {
  const at = findLine(files, mistake.line);
  const lines = (files.get(at.file) ?? '').split('\n');
  const given = lines[at.line - 1] ?? '';
  const written = write(given, mistake);
  lines.splice(at.line - 1, 1, ...written);
  const mistaken = new Map([...files, [at.file, lines.join('\n')]]);
  const shift = written.length - 1;
  return {
    files: mistaken,
    look:
      mistake.look === undefined
        ? { ...at, line: at.line + (mistake.added === undefined ? 0 : shift) }
        : findLine(mistaken, mistake.look),
    before: ({ file, line }) => ({ file, line: file === at.file && line > at.line ? line - shift : line }),
  };
}

/** The lines that stand in place of the one that was there. */
function write(given: string, { for: meant, typed, forgotten, added }: Mistake): readonly string[] {
  if (forgotten !== undefined) return [];
  if (added !== undefined) return [given, `${/^\s*/.exec(given)?.[0]}${added}`];
  if (meant === undefined || typed === undefined) throw new Error(`nothing is typed in: ${given}`);
  const [head, tail, ...more] = given.split(meant);
  if (head === undefined || tail === undefined || more.length > 0)
    throw new Error(`'${meant}' must stand once in: ${given}`);
  return [head + typed + tail];
}

/** The one line that has a piece in it; where several have, the one that is nothing else. */
function findLine(files: ReadonlyMap<string, string>, piece: string): Line {
  const found = [...files].flatMap(([file, text]) =>
    text
      .split('\n')
      .flatMap((text, index) => (text.includes(piece) ? [{ file, line: index + 1, text: text.trim() }] : [])),
  );
  const [only, ...others] = found.length > 1 ? found.filter(({ text }) => text === piece) : found;
  if (only === undefined || others.length > 0)
    throw new Error(`'${piece}' must stand in one line, and stands in ${found.length}`);
  return only;
}
