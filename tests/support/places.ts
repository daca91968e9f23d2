import { createFettle, type Fettle } from '../../server/core/fettle.ts';
import type { Source } from '../../server/core/names/mention.ts';
import type { Span } from '../../server/core/syntax/node.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { splitFiles, VARIANTS } from './marked.ts';
import { worldOf } from './world.ts';

/*
 * Text with a cursor and places: what a feature is expected to find stands between ‹ and ›, the cursor is §.
 *
 *     drive: ‹dri§ve-x›
 *
 * `--- file: NAME` begins another file. Every text is tried in all the ways in which it may be stored.
 */

/** A place in one of the files, `file:from-to`. */
export interface Workspace {
  readonly fettle: Fettle;
  readonly texts: ReadonlyMap<string, string>;
  readonly source: Source;
  readonly sources: readonly Source[];
  readonly offset: number;
  /** The marked places, in their order. */
  readonly expected: readonly string[];
}

/** Runs a check on a marked text stored in every way. */
export function inEveryWay(marked: string, check: (workspace: Workspace, way: string) => void): void {
  for (const [way, store] of VARIANTS) check(readPlaces(marked, store), way);
}

/** Takes the marks out of a text and opens what is left. */
export function readPlaces(marked: string, store: (text: string) => string = (text) => text): Workspace {
  const texts = new Map<string, string>();
  const expected: string[] = [];
  let cursor: { file: string; offset: number } | undefined;
  for (const [file, text] of splitFiles(marked, 'a.machine.yaml')) {
    let plain = '';
    let from = 0;
    for (const piece of store(text).split(/([‹›§])/)) {
      if (piece === '‹') from = plain.length;
      else if (piece === '›') expected.push(`${file}:${from}-${plain.length}`);
      else if (piece === '§') cursor = { file, offset: plain.length };
      else plain += piece;
    }
    texts.set(file, plain);
  }
  if (!cursor) throw new Error('the text has no cursor §');
  const fettle = createFettle(worldOf(texts));
  const source = fettle.read(cursor.file, texts.get(cursor.file) ?? '');
  return { fettle, texts, source, sources: fettle.workspace().sources, offset: cursor.offset, expected };
}

/** A found place, written as the marked ones are. */
export function placeIn({ file, tree }: Source, at: Span): string {
  const range = rangeOf(tree, at);
  if (!range) throw new Error(`a place of ${file} is gone`);
  return `${file}:${range.from}-${range.to}`;
}
