import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

/** Makes a folder for a test, with some files in it. */
export function makeFolder(files: Readonly<Record<string, string>> = {}): string {
  const folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-')));
  for (const [name, text] of Object.entries(files)) writeFile(folder, name, text);
  return folder;
}

/** Writes a file, and the folders that it stands in. */
export function writeFile(folder: string, name: string, text: string): void {
  const file = path.join(folder, name);
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, text);
}

/** A folder as a language client opens it. */
export interface Folder {
  readonly path: string;
  readonly uri: (file: string) => string;
  readonly write: (file: string, text: string) => void;
  readonly remove: () => void;
}

/** Makes a folder for a test that talks of its files by their URIs. */
export function openFolder(files: Readonly<Record<string, string>>): Folder {
  const folder = makeFolder(files);
  return {
    path: folder,
    uri: (file) => pathToFileURL(path.join(folder, file)).href,
    write: (file, text) => writeFile(folder, file, text),
    remove: () => fs.rmSync(folder, { recursive: true, force: true }),
  };
}
