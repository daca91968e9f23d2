import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { URI } from 'vscode-uri';

/** The page of a finding, which ships beside the bundles; undefined for what has none. */
export function findPage(code: string): string | undefined {
  if (!/^[a-z]+\/[a-z-]+$/.test(code)) return undefined;
  const path = join(__dirname, '..', 'docs', 'findings', `${code.replace('/', '-')}.md`);
  return existsSync(path) ? URI.file(path).toString() : undefined;
}
