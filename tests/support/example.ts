import fs from 'node:fs';
import path from 'node:path';
import type { Diagnostic } from 'vscode-languageserver/node';
import { ROOT } from './lsp-client.ts';

export const EXAMPLE_FOLDER = path.join(ROOT, 'examples/gantry-router');
export const EXAMPLE_FILE = path.join(EXAMPLE_FOLDER, 'gantry-router.machine.yaml');
export const readExample = (): string => fs.readFileSync(EXAMPLE_FILE, 'utf8');

/** The one warning that a faultless machine with an emergency-stop input keeps: that the input alone is not the stop. */
export const STANDING_CAUTION = /^safety\/emergency-stop/;

const HINT = 4;

/** Findings that ask for something to be done: errors and warnings, but for the standing caution. */
export function faultsOf(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  return diagnostics.filter(
    ({ severity, code }) => severity !== HINT && !STANDING_CAUTION.test(String(code)),
  );
}

/** What a finding says; the protocol lets a message be marked up. */
export const wordsOf = ({ message }: Diagnostic): string =>
  typeof message === 'string' ? message : message.value;

/** A finding in one line, for comparing: code, place and message. */
export function lineOf(diagnostic: Diagnostic): string {
  const { start, end } = diagnostic.range;
  return `${diagnostic.code} ${start.line}:${start.character}-${end.line}:${end.character} ${wordsOf(diagnostic)}`;
}
