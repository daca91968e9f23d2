import fs from 'node:fs';
import path from 'node:path';
import type { FileState, World } from '../../server/core/world.ts';
import { ROOT } from './lsp-client.ts';

const PARTS = path.join(ROOT, 'server/parts');

/** The sheets that ship, by the names that machines give them. */
const LIBRARY: ReadonlyMap<string, string> = new Map(
  fs
    .readdirSync(PARTS)
    .filter((file) => file.endsWith('.part.yaml'))
    .map((file) => [
      `generic/${file.slice(0, -'.part.yaml'.length)}`,
      fs.readFileSync(path.join(PARTS, file), 'utf8'),
    ]),
);

/**
 * A world in memory: some files of a workspace, named by their paths in it, and the library that ships. A file is its
 * text or, to try what goes wrong, its state.
 */
export function worldOf(files: ReadonlyMap<string, string | FileState>): World {
  return {
    resolve: (from, name) => {
      if (LIBRARY.has(name) || name.startsWith('/')) return name;
      return path.posix.join(path.posix.dirname(from), name.replaceAll('\\', '/'));
    },
    file: (id) => {
      const known = files.get(id) ?? LIBRARY.get(id);
      if (typeof known === 'string') return { kind: 'text', text: known };
      return known ?? { kind: /^(?:\.\.|\/)/.test(id) ? 'outside' : 'missing' };
    },
    pathTo: (from, to) => path.posix.relative(path.posix.dirname(from), to),
    projectFiles: (from) => {
      const folders = path.posix.dirname(from).split('/');
      return folders
        .map((_, up) => path.posix.join(...folders.slice(0, folders.length - up), '.fettle.yaml'))
        .concat('.fettle.yaml');
    },
    newProjectFile: () => '.fettle.yaml',
    library: [...LIBRARY.keys()],
    sheetsNear: (from) =>
      [...files.keys()]
        .filter((id) => id.endsWith('.part.yaml') && id !== from)
        .map((id) => path.posix.relative(path.posix.dirname(from), id)),
    definitions: () => [...files.keys()],
    nameOf: (id) => path.posix.basename(LIBRARY.has(id) ? `${id}.part.yaml` : id),
  };
}
