import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

/** A folder of its own with some files in it. */
export interface Folder {
  readonly path: string;
  readonly uri: (file: string) => string;
  readonly write: (file: string, text: string) => void;
  readonly remove: () => void;
}

/** Writes files, by their paths, into a fresh folder outside the project. */
export function makeFolder(files: Readonly<Record<string, string>>): Folder {
  const root = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-')));
  const write = (file: string, text: string) => {
    const target = path.join(root, file);
    fs.mkdirSync(path.dirname(target), { recursive: true });
    fs.writeFileSync(target, text);
  };
  for (const [file, text] of Object.entries(files)) write(file, text);
  return {
    path: root,
    uri: (file) => pathToFileURL(path.join(root, file)).href,
    write,
    remove: () => fs.rmSync(root, { recursive: true, force: true }),
  };
}
