import { type Analysis, shapeOf } from '../analysis.ts';
import { readLinkText } from '../model/link.ts';
import { chooseShape } from '../shape/branch.ts';
import { childShape } from '../shape/fields.ts';
import type { LeafShape, Shape } from '../shape/shape.ts';
import { type Block, type Node, type Pair, type Scalar, type Span, spanWithin } from '../syntax/node.ts';

/** What a word is, in the protocol's own terms, so that every editor has a colour for it. */
export const TOKEN_TYPES = [
  'variable', // a part
  'property', // a terminal
  'class', // an axis
  'parameter', // a setting
  'namespace', // a sheet
  'function', // a circuit
  'enumMember', // a word of the format's or of a setting's choices, a colour
  'number', // a quantity, a count, a wire
] as const;

export const TOKEN_MODIFIERS = ['declaration', 'defaultLibrary'] as const;

export type TokenType = (typeof TOKEN_TYPES)[number];
export type TokenModifier = (typeof TOKEN_MODIFIERS)[number];

/** A word with its meaning. Offsets are those of its block. */
export interface Token {
  readonly from: number;
  readonly to: number;
  readonly type: TokenType;
  readonly modifier?: TokenModifier;
}

/** The tokens of one entry or section: the same object as long as its text is the same. */
export interface TokenChunk {
  readonly block: Block;
  readonly tokens: readonly Token[];
}

/** The names that the user gives, by the key under which they are given. */
const NAMES: ReadonlyMap<string, TokenType> = new Map([
  ['parts', 'variable'],
  ['axes', 'class'],
  ['circuits', 'function'],
  ['settings', 'parameter'],
  ['set', 'parameter'],
]);

const REFERENCES: Readonly<Record<'part' | 'sheet' | 'axis' | 'circuit', TokenType>> = {
  part: 'variable',
  sheet: 'namespace',
  axis: 'class',
  circuit: 'function',
};

/** The meaning of every word that has one, in the order of the text, cut so that an edit costs what it touched. */
export function listTokens({ kind, tree }: Pick<Analysis, 'kind' | 'tree'>): TokenChunk[] {
  const top = shapeOf({ kind });
  const chunks: TokenChunk[] = [];
  for (const section of tree.root?.kind === 'map' ? tree.root.pairs : []) {
    const shape = childShape(top, section.key.text);
    const { value } = section;
    const name = section.key.text;
    if (value?.kind === 'map' && !value.flow)
      for (const pair of value.pairs)
        chunks.push(chunkOf(pair, pair.key.block, shape, (out) => addPair(pair, shape, name, out)));
    else if (value?.kind === 'list' && !value.flow) {
      const item = shape?.kind === 'list' ? shape.item : undefined;
      for (const node of value.items)
        if (node) chunks.push(chunkOf(node, node.block, item, (out) => addNode(node, item, name, out)));
    } else chunks.push(chunkOf(section, section.key.block, shape, (out) => addNode(value, shape, name, out)));
  }
  return chunks;
}

const kept = new WeakMap<Pair | Node, { readonly shape: Shape | undefined; readonly chunk: TokenChunk }>();

/** The same text under another key means something else, so the shape is looked at too. */
function chunkOf(
  of: Pair | Node,
  block: Block,
  shape: Shape | undefined,
  read: (out: Token[]) => void,
): TokenChunk {
  const before = kept.get(of);
  if (before && before.shape === shape) return before.chunk;
  const found: Token[] = [];
  read(found);
  const chunk = { block, tokens: inOrder(found) };
  kept.set(of, { shape, chunk });
  return chunk;
}

/** What an alias stands for is somewhere else in the text, and has its tokens there. */
function inOrder(tokens: readonly Token[]): Token[] {
  let end = 0;
  return tokens.filter(({ from, to }) => {
    if (from < end || to <= from) return false;
    end = to;
    return true;
  });
}

function addNode(node: Node | undefined, given: Shape | undefined, under: string, out: Token[]): void {
  const shape = node && given ? chooseShape(node, given) : undefined;
  if (!node || !shape) return;
  if (node.kind === 'scalar') {
    if (shape.kind === 'leaf') addLeaf(node, shape, out);
  } else if (node.kind === 'list') {
    for (const item of node.items) addNode(item, shape.kind === 'list' ? shape.item : undefined, under, out);
  } else for (const pair of node.pairs) addPair(pair, shape, under, out);
}

function addPair({ key, value }: Pair, shape: Shape | undefined, under: string, out: Token[]): void {
  const type = shape?.kind === 'entries' || under === 'axes' ? NAMES.get(under) : undefined;
  if (type) add(key, { type, ...(under !== 'set' && { modifier: 'declaration' as const }) }, out);
  addNode(value, childShape(shape, key.text), key.text, out);
}

function addLeaf(scalar: Scalar, { leaf }: LeafShape, out: Token[]): void {
  switch (leaf.kind) {
    case 'link':
      addLink(scalar, out);
      break;
    case 'terminal':
      if (leaf.of === 'machine') addEnd(scalar, out);
      else add(scalar, { type: 'property' }, out);
      break;
    case 'name':
      add(
        scalar,
        {
          type: REFERENCES[leaf.of],
          ...(leaf.of === 'sheet' &&
            scalar.text.startsWith('generic/') && { modifier: 'defaultLibrary' as const }),
        },
        out,
      );
      break;
    case 'choice':
    case 'yes-no':
    case 'role':
      add(scalar, { type: 'enumMember' }, out);
      break;
    case 'setting-value':
      add(scalar, { type: /^[-+.]?\d/.test(scalar.text) ? 'number' : 'enumMember' }, out);
      break;
    case 'text':
      break;
    default:
      add(scalar, { type: 'number' }, out);
  }
}

function addLink(scalar: Scalar, out: Token[]): void {
  if (scalar.textFrom === undefined) return;
  const { from, to, wire } = readLinkText(scalar);
  for (const end of from ? [from, ...to] : to) {
    add(end.partAt, { type: 'variable' }, out);
    add(end.terminalAt, { type: 'property' }, out);
  }
  if (wire) add(wire.at, { type: /\d/.test(wire.text) ? 'number' : 'enumMember' }, out);
}

function addEnd(scalar: Scalar, out: Token[]): void {
  const dot = scalar.text.indexOf('.');
  if (dot <= 0 || scalar.textFrom === undefined) return;
  add(spanWithin(scalar, 0, dot), { type: 'variable' }, out);
  add(spanWithin(scalar, dot + 1, scalar.text.length), { type: 'property' }, out);
}

/** Clients take no token that goes over the end of a line. */
function add(at: Span, what: Pick<Token, 'type' | 'modifier'>, out: Token[]): void {
  if (!/[\r\n]/.test(at.block.text.slice(at.from, at.to))) out.push({ from: at.from, to: at.to, ...what });
}
