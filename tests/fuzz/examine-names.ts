import type { Analysis } from '../../server/core/analysis.ts';
import type { FileEdit } from '../../server/core/features/sheet-links.ts';
import { createFettle } from '../../server/core/fettle.ts';
import { mentionsIn } from '../../server/core/names/mentions.ts';
import { mentionAt } from '../../server/core/names/name.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { worldOf } from '../support/world.ts';
import { must } from './case.ts';

/** The texts after some edits. */
function applied(texts: ReadonlyMap<string, string>, edits: readonly FileEdit[]): Map<string, string> {
  const after = new Map(texts);
  const placed = edits.map(({ source, at, text }) => {
    const range = rangeOf(source.tree, at);
    must(range !== undefined, () => 'an edit of a rename is nowhere');
    return { file: source.file, ...range, text };
  });
  for (const { file, from, to, text } of placed.toSorted((a, b) => b.from - a.from)) {
    const old = after.get(file) ?? '';
    after.set(file, old.slice(0, from) + text + old.slice(to));
  }
  return after;
}

/** Names that anything may have. */
const PLAIN = /^(?!(?:null|true|false|yes|no|on|off)$)[a-zA-Z][\w-]*$/i;

const NEW_NAME = 'renamed-x';

/** A name near the cursor is renamed and renamed back, which must give the texts that there were. @throws Fault */
export function examineNames(texts: ReadonlyMap<string, string>, { file }: Analysis, offset: number): void {
  const fettle = createFettle(worldOf(texts));
  const source = fettle.read(file, texts.get(file) ?? '');
  const { sources } = fettle.workspace();
  fettle.references(source, offset, sources, true);
  fettle.sheetLinks(source);
  const mentions = mentionsIn(source);
  const near = mentionAt(source, offset) ?? mentions[offset % Math.max(1, mentions.length)];
  const place = near && rangeOf(source.tree, near.at);
  if (!near || !place) return;
  for (const { at } of fettle.highlights(source, place.from)) {
    const range = rangeOf(source.tree, at);
    must(
      range !== undefined && range.to <= source.tree.text.length,
      () => 'a highlight is outside of the text',
    );
  }
  fettle.definition(source, place.from);
  fettle.linkedPlaces(source, place.from);
  const there = fettle.rename(source, place.from, NEW_NAME, sources);
  if (there.kind === 'refused') {
    must(there.why.length > 20, () => `a rename is refused with: ${there.why}`);
    return;
  }
  const changed = applied(texts, there.edits);
  const other = createFettle(worldOf(changed));
  const renamed = other.read(file, changed.get(file) ?? '');
  const shift = there.edits
    .filter(
      (edit) => edit.source.file === file && (rangeOf(edit.source.tree, edit.at)?.from ?? 0) < place.from,
    )
    .reduce((sum, edit) => sum + edit.text.length - (edit.at.to - edit.at.from), 0);
  const back = other.rename(renamed, place.from + shift, there.name.text, other.workspace().sources);
  if (back.kind === 'refused') {
    // A name that has to be quoted, or is none, can be changed but not given.
    must(!PLAIN.test(there.name.text), () => `${there.name.text} cannot be given back: ${back.why}`);
    return;
  }
  for (const [each, text] of applied(changed, back.edits))
    must(text === texts.get(each), () => `renamed and renamed back, ${each} is another text`);
}
