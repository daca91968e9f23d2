import { URI, Utils } from 'vscode-uri';
import type { FileId } from '../core/world.ts';

/**
 * One key for one file, however its URI is spelled: percent-encoding, the letter case of its scheme and of a drive,
 * `localhost` for this machine, doubled slashes, `..`, and a slash at the end. The key is a URI itself, so that it can
 * be shown and opened. What is no URI has a key as well, of no file, since a client may send anything.
 */
export function keyOf(uri: string): FileId {
  const parsed = Utils.resolvePath(parseAny(wellFormed(uri)));
  const scheme = parsed.scheme.toLowerCase();
  if (scheme !== 'file') return parsed.with({ scheme }).toString();
  const authority = /^localhost$/i.test(parsed.authority) ? '' : parsed.authority;
  const { fsPath } = parsed.with({ scheme, authority });
  return URI.file(fsPath.replace(/^[A-Z]:/, (drive) => drive.toLowerCase())).toString();
}

function parseAny(text: string): URI {
  try {
    return URI.parse(text);
  } catch {
    return URI.from({ scheme: 'invalid', path: text });
  }
}

/** The key of a path that is written in a file: relative to the file's folder. */
export function resolvePath(from: FileId, path: string): FileId {
  const folder = Utils.dirname(URI.parse(from));
  return keyOf(Utils.resolvePath(folder, wellFormed(path).replaceAll('\\', '/')).toString());
}

/** Half of a surrogate pair cannot be written in a URI; no file is called so. A client may send what is no text at all. */
function wellFormed(text: string): string {
  return String(text).replace(/\p{Surrogate}/gu, '\ufffd');
}

/** The last part of a key's path, as a person knows the file. */
export function baseNameOf(key: FileId): string {
  return Utils.basename(URI.parse(key));
}

/** True when a file is a folder's, at any depth. */
export function isInside(folder: FileId, file: FileId): boolean {
  const base = folder.endsWith('/') ? folder : `${folder}/`;
  return file.startsWith(base);
}

/** How to write a file's path in another file beside it; undefined when they are on different systems. */
export function relativePath(from: FileId, to: FileId): string | undefined {
  const [a, b] = [URI.parse(from), URI.parse(to)];
  if (a.scheme !== b.scheme || a.authority !== b.authority) return undefined;
  const start = a.path.split('/').slice(0, -1);
  const end = b.path.split('/');
  let common = 0;
  while (common < start.length && common < end.length - 1 && start[common] === end[common]) common++;
  return [...start.slice(common).map(() => '..'), ...end.slice(common)].join('/');
}

/** The folder of a file. */
export function folderOf(file: FileId): FileId {
  return keyOf(Utils.dirname(URI.parse(file)).toString());
}

/** The `.fettle.yaml` of a folder. */
export function projectFileIn(folder: FileId): FileId {
  return keyOf(Utils.joinPath(URI.parse(folder), '.fettle.yaml').toString());
}

/** Deeper than anybody keeps a project. */
const MOST_FOLDERS = 30;

/** The `.fettle.yaml` of a folder and of every one above it, the nearest first, whether it exists or not. */
export function listProjectFiles(folder: FileId): FileId[] {
  const files: FileId[] = [];
  for (let here = folder; files.length < MOST_FOLDERS; here = folderOf(here)) {
    files.push(projectFileIn(here));
    if (folderOf(here) === here) break;
  }
  return files;
}
