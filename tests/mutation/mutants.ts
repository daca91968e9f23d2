import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { ROOT } from '../support/lsp-client.ts';

/** Where a change is, as the instrumenter counts: lines and columns from 0. */
export interface Place {
  /** Path from the project's folder. */
  readonly file: string;
  readonly start: { readonly line: number; readonly column: number };
  readonly end: { readonly line: number; readonly column: number };
}

/** A small change of the code that some test should notice. */
export interface Mutant {
  /** The number by which the instrumented code switches it on. */
  readonly id: string;
  /** Path from the project's folder. */
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly column: number;
  /** The kind of change, by the name that Stryker gives it. */
  readonly kind: string;
  readonly original: string;
  readonly replacement: string;
  readonly place: Place;
  /** Stays the same while the code of its file does, so that results can be kept. */
  readonly key: string;
}

/** The code of a folder with all its mutants in it, each behind a switch. */
export interface Instrumented {
  readonly mutants: readonly Mutant[];
  /** Code by the file's full path. */
  readonly code: ReadonlyMap<string, string>;
}

// The instrumenter tells what it does; nobody needs to know.
const quiet = () => {};
const SILENT = {
  isTraceEnabled: () => false,
  isDebugEnabled: () => false,
  isInfoEnabled: () => false,
  isWarnEnabled: () => false,
  isErrorEnabled: () => false,
  isFatalEnabled: () => false,
  trace: quiet,
  debug: quiet,
  info: quiet,
  warn: quiet,
  error: quiet,
  fatal: quiet,
};

/**
 * Makes all mutants of a folder, or only those at places: what else runs is then the code as it stands, which takes a
 * fraction of the time. Both are numbered by themselves. Texts are left as they are (`StringLiteral`): most are words for people, whose wording no
 * test should pin down, and the few that mean something to the program are compared elsewhere.
 */
export async function instrument(folder: string, places?: readonly Place[]): Promise<Instrumented> {
  const files = fs
    .readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => /(?<!\.generated)\.ts$/.test(file))
    .sort()
    .map((file) => path.join(ROOT, folder, file))
    .filter((file) => !places || places.some((place) => place.file === path.relative(ROOT, file)));
  const texts = new Map(files.map((file) => [file, fs.readFileSync(file, 'utf8')]));
  const { files: made, mutants } = await new Instrumenter(SILENT).instrument(
    [...texts].map(([name, content]) => ({
      name,
      content,
      mutate: places?.filter(({ file }) => file === path.relative(ROOT, name)) ?? true,
    })),
    { excludedMutations: ['StringLiteral'], ignorers: [], plugins: [], noHeader: false },
  );
  return {
    code: new Map(made.map(({ name, content }) => [name, content])),
    mutants: mutants
      .filter(({ status }) => status !== 'Ignored')
      .map(({ id, fileName, location, mutatorName, replacement }) => {
        const text = texts.get(fileName) ?? '';
        const hash = createHash('sha256').update(text).digest('hex').slice(0, 12);
        const { start, end } = location;
        const file = path.relative(ROOT, fileName);
        return {
          id,
          file,
          place: { file, start, end },
          line: start.line + 1,
          column: start.column + 1,
          kind: mutatorName,
          original: text.slice(offsetOf(text, start), offsetOf(text, end)),
          replacement,
          key: `${hash} ${start.line}:${start.column}-${end.line}:${end.column} ${mutatorName} ${replacement}`,
        };
      }),
  };
}

/** @param place counted from 0 */
function offsetOf(text: string, { line, column }: { line: number; column: number }): number {
  let start = 0;
  for (let passed = 0; passed < line; passed++) start = text.indexOf('\n', start) + 1;
  return start + column;
}
