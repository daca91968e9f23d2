import { say } from '../language/say.ts';
import type { Edit, Fix } from '../problem.ts';
import { startOfLine } from '../syntax/lines.ts';
import type { MapNode } from '../syntax/node.ts';

/** Adds keys that are missing from a map: on lines of their own above the others, or inside the braces. */
export function addKeys(node: MapNode, keys: readonly string[]): Fix | undefined {
  const edit = node.flow ? insideBraces(node, keys) : aboveFirst(node, keys);
  return edit && { title: say`Add ${keys.join(say` and `)}`, edits: [edit], safe: false };
}

function insideBraces(node: MapNode, keys: readonly string[]): Edit {
  const at = { block: node.block, from: node.from + 1, to: node.from + 1 };
  const lines = keys.map((key) => ` ${key}: `).join(',');
  return { at, text: node.pairs.length > 0 ? `${lines},` : lines };
}

/** The first key keeps its place on its line (it may follow a dash), so the others take that place and push it down. */
function aboveFirst(node: MapNode, keys: readonly string[]): Edit | undefined {
  const first = node.pairs[0]?.key;
  if (!first) return undefined;
  const { text } = first.block;
  const column = first.from - startOfLine(text, first.from);
  const ending = text.includes('\r\n') ? '\r\n' : '\n';
  const lines = keys.map((key) => `${key}: ${ending}${' '.repeat(column)}`).join('');
  return { at: { block: first.block, from: first.from, to: first.from }, text: lines };
}
