import type { Leaf } from '../../../schemas/index.ts';
import { say } from '../language/say.ts';
import type { Node } from '../syntax/node.ts';
import { describeExpectation } from '../units/index.ts';
import type { Shape } from './shape.ts';

/** What a shape takes, in the words of a message: "a length (mm, m, in, um)". */
export function describeShape(shape: Shape): string {
  switch (shape.kind) {
    case 'leaf':
      return describeLeaf(shape.leaf);
    case 'map':
      return say`a group of keys (${[...shape.keys.keys()].slice(0, 4).join(', ')}${shape.keys.size > 4 ? ', …' : ''})`;
    case 'kinds':
      return say`a ${shape.of}: its kind with its terminals, and its figures`;
    case 'entries':
      return say`a group of entries, each with a name of its own`;
    case 'list':
      return describeList(shape.places, shape.least);
    case 'either':
      return describeBranches(shape.branches);
  }
}

/** Groups among several possibilities are told apart by the key that each cannot do without. */
function describeBranches(branches: readonly Shape[]): string {
  const groups = branches.flatMap((branch) =>
    branch.kind === 'map' ? ([...branch.keys.values()].find((key) => key.required)?.name ?? []) : [],
  );
  const others = branches.filter((branch) => branch.kind !== 'map').map(describeShape);
  const group = groups.length === 0 ? [] : [say`a group of keys with ${groups.join(say` or `)}`];
  return [...others, ...group].join(say` or `);
}

function describeList(places: readonly string[], least: number): string {
  if (places.length > 0) return say`a list of ${places.length}: [${places.join(', ')}]`;
  return least > 1 ? say`a list of at least ${least}` : say`a list`;
}

/** What a leaf takes, in the words of a message. */
export function describeLeaf(leaf: Leaf): string {
  switch (leaf.kind) {
    case 'quantity': {
      const { expected, units } = describeExpectation(leaf);
      return `${expected} (${units})`;
    }
    case 'span': {
      const { expected, units } = describeExpectation(leaf);
      return say`${expected} or a span such as 18..32 (${units})`;
    }
    case 'count':
      return leaf.most < 1000 ? say`a whole number from ${leaf.least} to ${leaf.most}` : say`a whole number`;
    case 'number':
      return say`a number from ${leaf.least} to ${leaf.most}`;
    case 'choice':
      return say`one of ${Object.keys(leaf.choices).join(', ')}`;
    case 'name':
      return say`the name of ${leaf.of === 'axis' ? 'an axis' : `a ${leaf.of}`}`;
    case 'terminal':
      return leaf.of === 'machine' ? say`a terminal with its part, such as panel.XP` : say`a terminal`;
    case 'ratio':
      return say`a ratio such as 3:1`;
    case 'wire':
      return say`a conductor such as 0.25 mm2 YE`;
    case 'link':
      return say`a link such as panel.XP -> drive-x.PUL-`;
    case 'date':
      return say`a date such as 2026-03-02`;
    case 'yes-no':
      return say`yes or no`;
    case 'role':
      return say`a use such as pulse X or emergency-stop`;
    case 'mains':
      return say`a supply network such as 230 V 50 Hz or 3 x 400 V 50 Hz`;
    case 'setting-value':
      return say`a value`;
    case 'text':
      return say`a text`;
  }
}

/** What stands in the text, in the words of a message. */
export function describeNode(node: Node): string {
  if (node.kind === 'map') return say`a group of keys`;
  if (node.kind === 'list') return say`a list`;
  return node.text.length > 40 ? `“${node.text.slice(0, 39)}…”` : `“${node.text}”`;
}
