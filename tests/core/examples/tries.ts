import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../../support/lsp-client.ts';

/** A row of the table `What to try` of an example: what to change, and the findings that it says will follow. */
export interface Try {
  readonly from: string;
  readonly to: string;
  readonly codes: readonly string[];
}

/** The rows that name findings; those that only tell of numbers are for people. */
export function readTries(example: string): readonly Try[] {
  const text = fs.readFileSync(path.join(ROOT, 'examples', example, 'README.md'), 'utf8');
  return text.split('\n').flatMap((line) => {
    const [, from, to, rest] = /^\| `(.+?)` to `(.+?)` \| (.*) \|$/.exec(line) ?? [];
    const codes = [...(rest ?? '').matchAll(/\[([a-z]+\/[a-z-]+)\]/g)].map(([, code = '']) => code);
    return from === undefined || to === undefined || codes.length === 0 ? [] : [{ from, to, codes }];
  });
}
