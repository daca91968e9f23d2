import type { Analysis } from '../analysis.ts';
import { pick } from '../pick.ts';
import type { Node, Pair, Scalar } from '../syntax/node.ts';
import { extentOf, rangeOf, type Tree } from '../syntax/tree.ts';

/** An entry of the outline, in offsets of the text. */
export interface DocumentSymbol {
  readonly name: string;
  readonly detail: string;
  readonly kind: 'section' | 'part' | 'axis' | 'link' | 'cable' | 'circuit' | 'setting' | 'key';
  readonly range: { readonly from: number; readonly to: number };
  readonly nameRange: { readonly from: number; readonly to: number };
  readonly children: readonly DocumentSymbol[];
}

/** What the entries of a section are called. */
const ENTRY_KINDS: Readonly<Record<string, DocumentSymbol['kind']>> = {
  parts: 'part',
  axes: 'axis',
  circuits: 'circuit',
  settings: 'setting',
};

/** The outline: sections, and in them parts, axes, links, circuits and settings. */
export function listSymbols({ tree }: Analysis): DocumentSymbol[] {
  return tree.root?.kind === 'map' ? tree.root.pairs.map((pair) => sectionSymbol(tree, pair)) : [];
}

function sectionSymbol(tree: Tree, pair: Pair): DocumentSymbol {
  const entryKind = pick(ENTRY_KINDS, pair.key.text);
  const detail = pair.value?.kind === 'scalar' ? pair.value.text : '';
  return {
    ...symbol(tree, pair.key, pair.value, 'section'),
    detail,
    children: childrenOf(tree, pair.value, entryKind),
  };
}

function childrenOf(
  tree: Tree,
  node: Node | undefined,
  entryKind: DocumentSymbol['kind'] | undefined,
): DocumentSymbol[] {
  if (node?.kind === 'map')
    return node.pairs.map(({ key, value }) => symbol(tree, key, value, entryKind ?? 'key'));
  if (node?.kind !== 'list') return [];
  return node.items.flatMap((item) => (item ? [itemSymbol(tree, item)] : []));
}

/** A link is called by its text, a cable by its name with its links below it. */
function itemSymbol(tree: Tree, item: Node): DocumentSymbol {
  if (item.kind === 'scalar') return symbol(tree, item, undefined, 'link');
  const pairs = item.kind === 'map' ? item.pairs : [];
  const named = pairs.find(({ key }) => key.text === 'cable' || key.text === 'link') ?? pairs[0];
  if (!named)
    return {
      name: '…',
      detail: '',
      kind: 'key',
      range: extentOf(tree, item),
      nameRange: extentOf(tree, item),
      children: [],
    };
  const title = named.value?.kind === 'scalar' ? named.value : named.key;
  const links = pairs.find(({ key }) => key.text === 'links')?.value;
  const kind = named.key.text === 'cable' ? 'cable' : 'link';
  return {
    ...symbol(tree, title, item, kind),
    range: extentOf(tree, item),
    children: childrenOf(tree, links, 'link'),
  };
}

function symbol(
  tree: Tree,
  name: Scalar,
  value: Node | undefined,
  kind: DocumentSymbol['kind'],
): DocumentSymbol {
  const nameRange = rangeOf(tree, name) ?? { from: 0, to: 0 };
  const to = value ? Math.max(nameRange.to, extentOf(tree, value).to) : nameRange.to;
  return {
    name: name.text || '…',
    detail: detailOf(value),
    kind,
    range: { from: nameRange.from, to },
    nameRange,
    children: [],
  };
}

function detailOf(value: Node | undefined): string {
  if (value?.kind !== 'map') return '';
  const first = value.pairs[0];
  return first?.value?.kind === 'scalar' ? first.value.text : '';
}
