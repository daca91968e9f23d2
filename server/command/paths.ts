import { relative, resolve, sep } from 'node:path';
import { URI } from 'vscode-uri';
import type { FileId } from '../core/world.ts';
import { keyOf } from '../files/keys.ts';

/** The key of a path, as it is given on the command line. */
export function keyOfPath(path: string): FileId {
  return keyOf(URI.file(resolve(path)).toString());
}

/** A file as a person in this folder would name it; with its whole path when it lies elsewhere. */
export function pathOfKey(key: FileId): string {
  const path = URI.parse(key).fsPath;
  const near = relative(process.cwd(), path);
  return near.startsWith('..') ? path : near;
}

/** A path as URIs and reports for other systems spell it, with slashes. */
export function withSlashes(path: string): string {
  return sep === '\\' ? path.replaceAll('\\', '/') : path;
}
