import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** The folder of the part sheets that ship: beside the bundles in the package, whose folder is `dist`, or beside this file's. */
export function libraryFolder(): string {
  const places = [join(__dirname, '..', 'server', 'parts'), join(__dirname, '..', 'parts')];
  return places.find(existsSync) ?? join(__dirname, 'parts');
}
