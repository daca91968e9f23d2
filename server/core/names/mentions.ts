import { pick } from '../pick.ts';
import { chooseShape, isNothing } from '../shape/branch.ts';
import type { Shape } from '../shape/shape.ts';
import { machineShape, sheetShape } from '../shape/shapes.ts';
import { type Block, type Node, type Pair, spanWithin } from '../syntax/node.ts';
import type { Tree } from '../syntax/tree.ts';
import { parseBlock } from '../syntax/yaml-block.ts';
import { isSheetFile } from '../world.ts';
import { mentionsInLeaf, type Where } from './leaf-mentions.ts';
import type { Mention, NameKind, Source } from './mention.ts';

const byTree = new WeakMap<Tree, readonly Mention[]>();

/**
 * Every name in a text, in its order. The tree is walked by its shape, so a new key of the format that names something
 * needs nothing here. What was found below an entry is kept with the entry, so an edit pays for what it touched.
 */
export function mentionsIn(source: Source): readonly Mention[] {
  const { tree, file, world } = source;
  let mentions = byTree.get(tree);
  if (!mentions) {
    const sheet = isSheetFile(world.nameOf(file));
    mentions = [
      ...titleOf(tree, sheet),
      ...tree.blocks.flatMap(anchorsIn),
      ...sectionsOf(tree.root, sheet ? sheetShape : machineShape),
    ];
    byTree.set(tree, mentions);
  }
  return mentions;
}

/** The name of the machine or of the model of part, which nothing refers to. */
function titleOf({ root }: Tree, sheet: boolean): Mention[] {
  const pair =
    root?.kind === 'map'
      ? root.pairs.find(({ key }) => key.text === (sheet ? 'part' : 'machine'))
      : undefined;
  const value = pair?.value;
  if (value?.kind !== 'scalar' || isNothing(value)) return [];
  const at = spanWithin(value, 0, value.text.length);
  return [{ kind: 'title', text: value.text, at, access: 'definition', owner: undefined }];
}

const NONE: readonly Mention[] = [];

/** YAML's own names for what is written once and used in several places. */
function anchorsIn(block: Block): readonly Mention[] {
  const { anchors } = parseBlock(block);
  if (anchors.length === 0) return NONE;
  return anchors.map(({ name, at, isGiven }) => ({
    kind: 'anchor',
    text: name,
    at,
    access: isGiven ? 'definition' : 'use',
    owner: undefined,
  }));
}

const NOWHERE: Where = { key: '', owner: undefined, definesTerminals: false };

function sectionsOf(root: Node | undefined, shape: Shape): Mention[] {
  if (root?.kind !== 'map' || shape.kind !== 'map') return [];
  return root.pairs.flatMap(({ key, value }) => {
    const section = shape.keys.get(key.text)?.shape;
    if (!section || !value) return [];
    const where = { ...NOWHERE, key: key.text, definesTerminals: key.text === 'terminals' };
    if (value.kind === 'map') return mapMentions(value.pairs, section, where, keepPair);
    if (value.kind !== 'list' || section.kind !== 'list') return mentionsBelow(value, section, where);
    return value.items.flatMap((item) => (item ? keepItem(item, section.item, where) : []));
  });
}

const kept = new WeakMap<Shape, WeakMap<Pair | Node, readonly Mention[]>>();

/** What was found before below a pair or an item that is read by a shape. */
function keep(shape: Shape, thing: Pair | Node, find: () => readonly Mention[]): readonly Mention[] {
  let known = kept.get(shape);
  if (!known) {
    known = new WeakMap();
    kept.set(shape, known);
  }
  let mentions = known.get(thing);
  if (!mentions) {
    mentions = find();
    known.set(thing, mentions);
  }
  return mentions;
}

type PairReader = (pair: Pair, shape: Shape, where: Where) => readonly Mention[];

const keepPair: PairReader = (pair, shape, where) =>
  keep(shape, pair, () => pairMentions(pair, shape, where));

function keepItem(item: Node, shape: Shape, where: Where): readonly Mention[] {
  return keep(shape, item, () => mentionsBelow(item, shape, where));
}

/** What the keys of a map with the user's own names stand for, by the key that the map stands under. */
const ENTRIES: Readonly<Record<string, readonly [NameKind, Mention['access']]>> = {
  parts: ['part', 'definition'],
  circuits: ['circuit', 'definition'],
  settings: ['setting', 'definition'],
  set: ['setting', 'assignment'],
  axes: ['axis', 'definition'],
};

function mapMentions(
  pairs: readonly Pair[],
  shape: Shape,
  where: Where,
  read: PairReader = pairMentions,
): Mention[] {
  const entry = pick(ENTRIES, where.key);
  return pairs.flatMap((pair) => {
    const { key } = pair;
    const child =
      shape.kind === 'entries'
        ? shape.value
        : shape.kind === 'map'
          ? shape.keys.get(key.text)?.shape
          : undefined;
    if (!child) return [];
    const isPart = entry?.[0] === 'part';
    const below: Where = {
      key: shape.kind === 'entries' && entry ? '' : key.text,
      owner: isPart ? key.text : where.owner,
      definesTerminals: where.definesTerminals || key.text === 'terminals',
    };
    const inside = read(pair, child, below);
    if (!entry || (shape.kind === 'map' && where.key !== 'axes')) return inside;
    const [kind, access] = entry;
    const at = spanWithin(key, 0, key.text.length);
    const owner = isPart || kind === 'axis' ? undefined : where.owner;
    return [{ kind, text: key.text, at, access, owner }, ...inside];
  });
}

function pairMentions({ value }: Pair, shape: Shape, where: Where): readonly Mention[] {
  return value ? mentionsBelow(value, shape, where) : [];
}

function mentionsBelow(node: Node, shape: Shape, where: Where): readonly Mention[] {
  const opened = chooseShape(node, shape);
  if (!opened || isNothing(node)) return [];
  if (node.kind === 'scalar') return opened.kind === 'leaf' ? mentionsInLeaf(node, opened.leaf, where) : [];
  if (node.kind === 'map') return mapMentions(node.pairs, opened, where);
  if (opened.kind !== 'list') return [];
  return node.items.flatMap((item) => (item ? mentionsBelow(item, opened.item, where) : []));
}
