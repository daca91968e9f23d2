import type { Leaf } from '../../schemas/index.ts';
import type { Key, MapShape, Shape } from '../../server/core/shape/shape.ts';
import { nameDimension } from '../../server/core/units/index.ts';
import { blocks, code, codes, table } from '../../tests/support/markdown.ts';

const HEAD = ['key', 'takes', 'units that fit', 'needed', 'what it says'];

/** The table of a map's keys, and below it what the choices mean. */
export function describeMap(shape: MapShape, leaveOut: readonly string[] = []): string {
  const keys = [...shape.keys.values()].filter((key) => !leaveOut.includes(key.name));
  if (keys.length === 0) return '';
  const rows = keys.map((key) => [
    code(key.name),
    takes(key.shape),
    units(key.shape),
    key.required ? 'yes' : '',
    key.doc,
  ]);
  return blocks(table(HEAD, rows), ...keys.map(describeChoices));
}

/** Long lists of choices have a chapter of their own. */
const MOST_INLINE = 8;

function describeChoices({ name, shape }: Key): string {
  if (shape.kind !== 'leaf' || shape.leaf.kind !== 'choice') return '';
  const choices = Object.entries(shape.leaf.choices);
  if (choices.length > MOST_INLINE) return '';
  return blocks(
    `${code(name)} is one of:`,
    choices.map(([word, doc]) => `- ${code(word)}: ${doc}`).join('\n'),
  );
}

/** What a key takes, in few words. */
export function takes(shape: Shape): string {
  switch (shape.kind) {
    case 'leaf':
      return takesLeaf(shape.leaf);
    case 'map':
      return 'keys, see below';
    case 'kinds':
      return `a ${shape.of}`;
    case 'entries':
      return 'entries with names';
    case 'list':
      return shape.places.length > 0
        ? `list: ${shape.places.join(', ')}`
        : `list of ${takesItem(shape.item)}`;
    case 'either':
      return [...new Set(shape.branches.map(takes))].join(' or ');
  }
}

function takesItem(shape: Shape): string {
  if (shape.kind === 'either') return takesItem(shape.branches[0] ?? shape);
  if (shape.kind !== 'leaf') return 'entries';
  return (
    { terminal: 'terminals', 'setting-value': 'values', name: 'names', link: 'links' }[
      shape.leaf.kind as string
    ] ?? 'texts'
  );
}

function takesLeaf(leaf: Leaf): string {
  switch (leaf.kind) {
    case 'quantity':
      return dimensions(leaf);
    case 'span':
      return `span, or ${dimensions(leaf)}`;
    case 'count':
      if (leaf.least === leaf.most) return code(String(leaf.least));
      return leaf.most < 1000 ? `whole number ${leaf.least}..${leaf.most}` : 'whole number';
    case 'number':
      return `number ${leaf.least}..${leaf.most}`;
    case 'choice': {
      const words = Object.keys(leaf.choices);
      return words.length > MOST_INLINE ? 'a word, see below' : codes(words);
    }
    case 'name':
      return leaf.of === 'sheet' ? 'a sheet' : `name of ${leaf.of === 'axis' ? 'an axis' : `a ${leaf.of}`}`;
    case 'terminal':
      return leaf.of === 'machine' ? 'part.terminal' : 'terminal';
    case 'yes-no':
      return '`yes` or `no`';
    case 'role':
      return 'a use, see below';
    case 'setting-value':
      return 'value';
    case 'mains':
      return 'supply network';
    case 'wire':
      return 'conductor';
    case 'ratio':
    case 'link':
    case 'date':
    case 'text':
      return leaf.kind;
  }
}

function dimensions({ dimension }: Extract<Leaf, { dimension: unknown }>): string {
  return [dimension]
    .flat()
    .map((name) => nameDimension(name).replace(/^an? /, ''))
    .join(' or ');
}

function units(shape: Shape): string {
  const leaf = shape.kind === 'leaf' ? shape.leaf : undefined;
  return leaf?.kind === 'quantity' || leaf?.kind === 'span' ? codes(leaf.units) : '';
}
