import { say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import type { Edit, Fix } from '../../problem.ts';
import { startOfLine } from '../../syntax/lines.ts';
import {
  type MapNode,
  type Node,
  type Pair,
  pairOf,
  type Scalar,
  type Span,
  valueUnder,
} from '../../syntax/node.ts';
import { extentOf, rangeOf, spanAt, type Tree } from '../../syntax/tree.ts';

/** True where a place shows exactly this text, so that it can be replaced letter by letter. */
export function showsText(at: Span, text: string): boolean {
  return at.block.text.slice(at.from, at.to) === text;
}

/** Replaces one name by another in all the places that show it; undefined where one of them is escaped or folded. */
export function renameAll(places: readonly Span[], from: string, to: string): Fix | undefined {
  // What an alias brings in stands in one place of the text, however many things it is part of.
  const own = places.filter(
    (at, index) =>
      places.findIndex(
        (other) => other.block === at.block && other.from === at.from && other.to === at.to,
      ) === index,
  );
  if (own.length === 0 || !own.every((at) => showsText(at, from))) return undefined;
  return { title: sayChange(own.length, to), edits: own.map((at) => ({ at, text: to })), safe: false };
}

function sayChange(count: number, to: string): string {
  if (count === 1) return say`Change to ${to}`;
  return count === 2 ? say`Change to ${to} in both places` : say`Change to ${to} in all ${count} places`;
}

/** The line end that a text uses. */
export function lineEnd(tree: Tree): string {
  return tree.text.includes('\r\n') ? '\r\n' : '\n';
}

/** The spelling of a key or value that YAML takes for one plain word, quoted where it must be. */
export function asScalar(text: string): string {
  return /^[\w+][\w.+/-]*( [\w./%-]+)*$/.test(text) ? text : JSON.stringify(text);
}

/** Removes an entry of a map: its lines, or in braces the entry with the comma that goes with it. */
export function removeEntry(tree: Tree, { key, value }: Pair): Edit | undefined {
  const from = rangeOf(tree, key)?.from;
  if (from === undefined) return undefined;
  const keyEnd = from + (key.to - key.from);
  // The value of an alias stands elsewhere; the entry ends with the alias.
  const alias = /^\s*:\s*\*[^\s,[\]{}]+/.exec(tree.text.slice(keyEnd, keyEnd + 200))?.[0];
  const to = value && alias === undefined ? extentOf(tree, value).to : keyEnd + (alias?.length ?? 0);
  const lineFrom = startOfLine(tree.text, from);
  if (tree.text.slice(lineFrom, from).trim() === '') {
    const end = nextLine(tree.text, to);
    return replaceRange(tree, lineFrom, end, '');
  }
  const after = /^\s*,[^\S\n]*/.exec(tree.text.slice(to));
  if (after) return replaceRange(tree, from, to + after[0].length, '');
  const before = /,\s*$/.exec(tree.text.slice(0, from));
  return replaceRange(tree, from - (before?.[0].length ?? 0), to, '');
}

/** Adds a line after the last line of a node, indented like the node's first child. */
export function addLineAfter(tree: Tree, node: Node, indent: number, line: string): Edit | undefined {
  const end = endOfLine(tree.text, extentOf(tree, node).to);
  return replaceRange(tree, end, end, `${lineEnd(tree)}${' '.repeat(indent)}${line}`);
}

/** Adds an item to a list, at its end. */
export function addItem(tree: Tree, list: Node | undefined, item: string): Edit | undefined {
  if (list?.kind !== 'list') return undefined;
  const last = list.items.findLast((each) => each !== undefined);
  if (!last) return undefined;
  if (list.flow) {
    const { to } = extentOf(tree, last);
    return replaceRange(tree, to, to, `, ${item}`);
  }
  const { from } = extentOf(tree, last);
  const lineFrom = startOfLine(tree.text, from);
  const indent = /^ *(?=- )/.exec(tree.text.slice(lineFrom, from))?.[0];
  return indent === undefined ? undefined : addLineAfter(tree, last, indent.length, `- ${item}`);
}

/** Adds an entry to a map, at its end; undefined for a map with nothing to go by. */
export function addEntry(tree: Tree, map: MapNode, entry: string): Edit | undefined {
  const [first] = map.pairs;
  const last = map.pairs.at(-1);
  if (!first || !last || first.key.block !== map.block) return undefined;
  if (map.flow) {
    if (!last.value) return undefined;
    const { to } = extentOf(tree, last.value);
    return replaceRange(tree, to, to, `, ${entry}`);
  }
  return addLineAfter(tree, last.value ?? last.key, columnOf(tree, first.key), entry);
}

/** Writes a setting into a part's `set:`, which is added where there is none; undefined where that cannot be done. */
export function addSetting(tree: Tree, part: Part, name: string, value: string): Edit | undefined {
  return addSettings(tree, part, [{ name, value }])[0];
}

/** Writes several settings into a part's `set:`; empty where that cannot be done. */
export function addSettings(
  tree: Tree,
  { node }: Part,
  settings: readonly { readonly name: string; readonly value: string }[],
): Edit[] {
  if (node?.kind !== 'map') return [];
  const entries = settings.map(({ name, value }) => `${asScalar(name)}: ${value}`);
  const set = valueUnder(node, 'set');
  if (set?.kind === 'map') return entries.flatMap((entry) => addEntry(tree, set, entry) ?? []);
  if (pairOf(node, 'set')) return [];
  return [addEntry(tree, node, `set: { ${entries.join(', ')} }`)].filter((edit) => edit !== undefined);
}

/** How far a place is from the start of its line. */
export function columnOf(tree: Tree, at: Span): number {
  const from = rangeOf(tree, at)?.from ?? 0;
  return from - startOfLine(tree.text, from);
}

/** The place of a whole scalar as an edit that replaces it. */
export function replaceScalar(scalar: Scalar, text: string): Edit {
  return { at: { block: scalar.block, from: scalar.from, to: scalar.to }, text };
}

/** Replaces a stretch of the whole text. */
export function replaceRange(tree: Tree, from: number, to: number, text: string): Edit | undefined {
  const at = spanAt(tree, from, to);
  return at && { at, text };
}

export function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

function endOfLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  if (end < 0) return text.length;
  return text[end - 1] === '\r' ? end - 1 : end;
}
