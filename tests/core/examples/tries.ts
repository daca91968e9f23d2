import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../../support/lsp-client.ts';

/** A row of the table `What to try` of an example: what to change, and the findings that it says will follow. */
export interface Try {
  readonly changes: readonly { readonly from: string; readonly to: string }[];
  readonly codes: readonly string[];
}

/** The text with the changes made. Throws where what is to change does not stand there once. */
export function applyTry({ changes }: Try, text: string): string {
  return changes.reduce((before, { from, to }) => {
    if (before.split(from).length !== 2) throw new Error(`must stand there once: ${from}`);
    return before.replace(from, () => to);
  }, text);
}

/** The rows that name findings; those that only tell of numbers are for people. */
export function readTries(example: string): readonly Try[] {
  const text = fs.readFileSync(path.join(ROOT, 'examples', example, 'README.md'), 'utf8');
  return text.split('\n').flatMap((line) => {
    const [, change = '', rest = ''] = /^\| (`.+?` to `.+?`) \| (.*) \|$/.exec(line) ?? [];
    const changes = [...change.matchAll(/`([^`]+)` to `([^`]+)`/g)].map(([, from = '', to = '']) => ({
      from,
      to,
    }));
    const codes = [...rest.matchAll(/\[([a-z]+\/[a-z-]+)\]/g)].map(([, code = '']) => code);
    return changes.length === 0 || codes.length === 0 ? [] : [{ changes, codes }];
  });
}
