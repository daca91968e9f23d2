import { type Analysis, type MachineAnalysis, shapeOf } from '../analysis.ts';
import { addEntry, addSetting, asScalar } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import { nearestName } from '../nearest.ts';
import type { Edit } from '../problem.ts';
import { childShape } from '../shape/fields.ts';
import type { Shape } from '../shape/shape.ts';
import type { MapNode, Node } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';

/** A text in which one value was replaced or added, or why it was not. */
export type Edited =
  | {
      readonly kind: 'edited';
      readonly text: string;
      /** What stood there; undefined for a value that was added. */
      readonly before: string | undefined;
    }
  | { readonly kind: 'refused'; readonly why: string };

/**
 * Sets the value at a path: `axes.X.screw.lead`, `parts.psu.sheet`, `records.0.seen`, and `parts.drive-x.microsteps` for
 * a setting of a part, which is added to its `set:` where it is not there. The text around it stays as it is.
 */
export function setAt(analysis: Analysis, path: string, value: string): Edited {
  const shape = shapeOf(analysis);
  const found =
    settingAt(analysis, path, value) ?? editAlong(analysis, analysis.tree.root, shape, path, value);
  return found ? edited(analysis, found) : { kind: 'refused', why: describeUnknown(analysis, path) };
}

interface Found {
  readonly edit: Edit | undefined;
  readonly before: string | undefined;
  /** What is there in place of a single value. */
  readonly instead?: string;
}

function edited({ tree }: Analysis, { edit, before, instead }: Found): Edited {
  const range = edit && rangeOf(tree, edit.at);
  if (!range)
    return {
      kind: 'refused',
      why: instead ?? say`This value cannot be changed in place; change it in the text.`,
    };
  const text = tree.text.slice(0, range.from) + edit.text + tree.text.slice(range.to);
  return { kind: 'edited', text, before };
}

/** A setting of a part, named after the part. */
function settingAt(analysis: Analysis, path: string, value: string): Found | undefined {
  if (analysis.kind !== 'machine') return undefined;
  for (const part of analysis.machine.parts.values()) {
    const start = `parts.${part.name}.`;
    if (!path.startsWith(start)) continue;
    const name = path.slice(start.length).replace(/^set\./, '');
    if (part.sheet?.settings.has(name) || part.assigned.has(name))
      return setSetting(analysis, part, name, value);
  }
  return undefined;
}

function setSetting({ tree }: MachineAnalysis, part: Part, name: string, value: string): Found {
  const assigned = part.assigned.get(name)?.value;
  if (assigned) return { edit: { at: assigned, text: asValue(value) }, before: assigned.text };
  return {
    edit: addSetting(tree, part, name, value),
    before: part.sheet?.settings.get(name)?.initial?.text,
  };
}

/** Follows the keys of a path. Keys may hold dots, so the longest key that the path goes on with is taken. */
function editAlong(
  analysis: Analysis,
  node: Node | undefined,
  shape: Shape | undefined,
  rest: string,
  value: string,
): Found | undefined {
  if (node?.kind === 'list') {
    const [index = '', ...deeper] = rest.split('.');
    const item = /^\d{1,6}$/.test(index) ? node.items[Number(index)] : undefined;
    const itemShape = shape?.kind === 'list' ? shape.item : undefined;
    if (!item) return undefined;
    return deeper.length === 0
      ? replace(item, value)
      : editAlong(analysis, item, itemShape, deeper.join('.'), value);
  }
  if (node?.kind !== 'map') return undefined;
  const [pair] = node.pairs
    .filter(({ key }) => rest === key.text || rest.startsWith(`${key.text}.`))
    .sort((a, b) => b.key.text.length - a.key.text.length);
  if (!pair) return addKey(analysis, node, shape, rest, value);
  if (rest === pair.key.text) return replace(pair.value, value);
  const deeper = rest.slice(pair.key.text.length + 1);
  return editAlong(analysis, pair.value, childShape(shape, pair.key.text), deeper, value);
}

function replace(node: Node | undefined, value: string): Found {
  if (node?.kind === 'scalar') return { edit: { at: node, text: asValue(value) }, before: node.text };
  const what = node?.kind === 'list' ? 'a list' : say`a group of values`;
  const next = node?.kind === 'list' ? '0' : (node?.pairs[0]?.key.text ?? 'KEY');
  return {
    edit: undefined,
    before: undefined,
    instead: node
      ? say`There is ${what} at this path; name one value in it, e.g. by adding .${next}`
      : say`There is no value yet at this path; write one into the text.`,
  };
}

/** A key that the format knows and the text does not have yet. */
function addKey(
  { tree }: Analysis,
  node: MapNode,
  shape: Shape | undefined,
  key: string,
  value: string,
): Found | undefined {
  const known = shape?.kind === 'map' ? shape.keys.get(key)?.shape : undefined;
  if (known?.kind !== 'leaf') return undefined;
  return { edit: addEntry(tree, node, `${key}: ${asValue(value)}`), before: undefined };
}

/** A value as it is written: quoted only where YAML would read something else. */
function asValue(value: string): string {
  return /^-[\d.]+(?: [\w./%-]+)?$/.test(value) ? value : asScalar(value);
}

function describeUnknown(analysis: Analysis, path: string): string {
  const known = pathsOf(analysis);
  const near = nearestName(path, known);
  if (near !== undefined) return say`There is nothing at ${path}. Did you mean ${near}?`;
  const start = path.slice(0, path.lastIndexOf('.') + 1);
  const beside = known.filter((each) => start !== '' && each.startsWith(start));
  const some = (beside.length > 0 ? beside : known).slice(0, 3);
  return say`There is nothing at ${path}. Paths look like ${some.join(', ')}.`;
}

/** Every single value of the text, and every setting of its parts, by its path. */
function pathsOf(analysis: Analysis): string[] {
  const paths: string[] = [];
  if (analysis.kind === 'machine') {
    for (const { name, sheet } of analysis.machine.parts.values())
      for (const setting of sheet?.settings.keys() ?? []) paths.push(`parts.${name}.${setting}`);
  }
  const walk = (node: Node | undefined, path: string): void => {
    const step = (key: string) => (path === '' ? key : `${path}.${key}`);
    if (node?.kind === 'scalar') paths.push(path);
    if (node?.kind === 'list')
      for (const [index, item] of node.items.entries()) walk(item, step(String(index)));
    if (node?.kind === 'map') for (const { key, value } of node.pairs) walk(value, step(key.text));
  };
  for (const { key, value } of analysis.tree.root?.kind === 'map' ? analysis.tree.root.pairs : [])
    if (key.text !== 'wiring') walk(value, key.text);
  return paths;
}
