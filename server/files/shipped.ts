import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** The folder of the part sheets that ship: beside the bundles' folder in the package, beside this one in the sources. */
export function libraryFolder(): string {
  const packed = join(__dirname, '..', 'server', 'parts');
  return existsSync(packed) ? packed : join(__dirname, '..', 'parts');
}
