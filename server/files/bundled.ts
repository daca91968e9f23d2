import type { FileState } from '../core/world.ts';
import type { Library } from './library.ts';

/** The texts of the sheets that ship, by their names without folder and ending; put in when the worker is bundled. */
declare const SHIPPED_SHEETS: Readonly<Record<string, string>>;

/** No such place exists: the library of a worker is in the worker. */
const FOLDER = 'fettle-library:/';
const PREFIX = 'generic/';

/** The part sheets that ship, where there is no disk to read them from. */
export function bundledLibrary(): Library {
  const texts = new Map(Object.entries(SHIPPED_SHEETS).map(([name, text]) => [fileOf(name), text]));
  return {
    folder: FOLDER,
    names: Object.keys(SHIPPED_SHEETS).map((name) => PREFIX + name),
    find: (path) => {
      if (!path.startsWith(PREFIX)) return undefined;
      const name = path.slice(PREFIX.length).replace(/\.part\.ya?ml$/, '');
      return /^[\w.-]+$/.test(name) ? fileOf(name) : undefined;
    },
    read: (file): FileState => {
      const text = texts.get(file);
      return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
    },
  };
}

const fileOf = (name: string) => `${FOLDER}${name}.part.yaml`;
