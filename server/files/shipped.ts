import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** The folder of the part sheets that ship: beside the bundles in the package, where the bundles' folder is `dist`. */
export function libraryFolder(): string {
  const beside = join(__dirname, '..', 'server', 'parts');
  return existsSync(beside) ? beside : join(__dirname, 'parts');
}
