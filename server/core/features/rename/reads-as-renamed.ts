import type { Mention, Source } from '../../names/mention.ts';
import { mentionsIn } from '../../names/mentions.ts';
import type { Found, Name } from '../../names/name.ts';
import type { Block } from '../../syntax/node.ts';
import { rangeOf, readTree } from '../../syntax/tree.ts';

/** True when every text, with a word put in all the places of a name, has the same names as before but for that one. */
export function readsAsRenamed(name: Name, text: string, places: readonly Found[]): boolean {
  const bySource = new Map<Source, Mention[]>();
  for (const { source, mention } of places) {
    const there = bySource.get(source);
    if (there) there.push(mention);
    else bySource.set(source, [mention]);
  }
  return [...bySource].every(([source, mentions]) => {
    const changed = write(source, mentions, text);
    const after =
      changed === undefined ? undefined : mentionsIn({ ...source, tree: readTree(changed, source.tree) });
    return after !== undefined && isAsBefore(source, mentions, after, name, text);
  });
}

function write({ tree }: Source, mentions: readonly Mention[], word: string): string | undefined {
  const ranges = mentions.map(({ at }) => rangeOf(tree, at)).sort((a, b) => (a?.from ?? 0) - (b?.from ?? 0));
  const pieces: string[] = [];
  let end = 0;
  for (const range of ranges) {
    if (!range || range.from < end) return undefined;
    pieces.push(tree.text.slice(end, range.from), word);
    end = range.to;
  }
  return pieces.join('') + tree.text.slice(end);
}

function isAsBefore(
  source: Source,
  renamed: readonly Mention[],
  after: readonly Mention[],
  name: Name,
  word: string,
): boolean {
  const before = mentionsIn(source);
  const changed = new Map<Block, Set<number>>();
  for (const { at } of renamed) changed.set(at.block, (changed.get(at.block) ?? new Set()).add(at.from));
  return (
    before.length === after.length &&
    before.every((old, index) => {
      const now = after[index];
      const text = changed.get(old.at.block)?.has(old.at.from) ? word : old.text;
      const owner = name.kind === 'part' && old.owner === name.text ? word : old.owner;
      return now?.kind === old.kind && now.text === text && now.owner === owner && now.access === old.access;
    })
  );
}
