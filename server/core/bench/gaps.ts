import { FACTS_BY_CLASS } from '../../../schemas/index.ts';
import type { SheetAnalysis } from '../analysis.ts';
import { addEntry } from '../findings/common/edits.ts';
import { groupBy } from '../group.ts';
import { say } from '../language/say.ts';
import { childShape, fieldsOf } from '../shape/fields.ts';
import type { Key, Shape } from '../shape/shape.ts';
import { sheetShape } from '../shape/shapes.ts';
import type { MapNode } from '../syntax/node.ts';
import { rangeOf, type Tree } from '../syntax/tree.ts';
import { settingsFor } from './settings.ts';

/** Something that a sheet could say and does not. */
export interface Gap {
  /** Gaps of one kind are looked at together first: `line-out hold`. */
  readonly kind: string;
  /** What is lacking, and in which circuit: `hold` of `direction`; in words where it belongs to the whole part. */
  readonly what: string;
  readonly circuit: string | undefined;
  /** The map that it would go into, or the section that would have to be begun. */
  readonly map: MapNode | undefined;
  readonly section: string;
  readonly entry: string;
}

/** All figures, facts and settings that a sheet could have and has not, each with a value that is usual for it. */
export function listGaps({ sheet, tree }: SheetAnalysis): Gap[] {
  const gaps: Gap[] = [];
  for (const { name, kind, figures } of sheet.circuits.values()) {
    for (const key of keysOfKind(kind)) {
      const value = isSaid(figures.node, key.name) ? undefined : usualValue(key);
      if (value === undefined) continue;
      const entry = `${key.name}: ${value}`;
      gaps.push({
        kind: `${kind} ${key.name}`,
        what: key.name,
        circuit: name,
        map: figures.node,
        section: '',
        entry,
      });
    }
  }
  const facts = childShape(sheetShape, 'facts');
  for (const name of FACTS_BY_CLASS[sheet.partClass] ?? []) {
    const key = facts?.kind === 'map' ? facts.keys.get(name) : undefined;
    const value = key && !isSaid(sheet.facts.node, name) ? usualValue(key) : undefined;
    if (value === undefined) continue;
    const what = say`the fact ${name}`;
    gaps.push({
      kind: what,
      what,
      circuit: undefined,
      map: sheet.facts.node,
      section: 'facts',
      entry: `${name}: ${value}`,
    });
  }
  const settings = fieldsOf(tree.root, sheetShape).child('settings').node;
  for (const { is, axis, entry } of settingsFor(sheet)) {
    const what = axis === undefined ? say`a setting that is ${is}` : say`a setting that is ${is} of ${axis}`;
    gaps.push({ kind: what, what, circuit: undefined, map: settings, section: 'settings', entry });
  }
  return gaps;
}

/** The text of a sheet with some of its gaps filled. */
export function fillGaps(tree: Tree, gaps: readonly Gap[]): string {
  const edits = gaps.flatMap(({ map, entry }) => {
    const edit = map && addEntry(tree, map, entry);
    const range = edit && rangeOf(tree, edit.at);
    return edit && range ? [{ ...range, text: edit.text }] : [];
  });
  // The later ones first, so that those before them keep their places; of one place, the last goes in first.
  const filled = edits
    .map((edit, order) => ({ ...edit, order }))
    .sort((a, b) => b.from - a.from || b.order - a.order)
    .reduce((text, { from, to, text: put }) => text.slice(0, from) + put + text.slice(to), tree.text);
  const begun = groupBy(
    gaps.filter(({ map, section }) => map === undefined && section !== ''),
    ({ section }) => section,
  );
  const sections = [...begun].map(
    ([section, all]) => `${section}:\n${all.map(({ entry }) => `  ${entry}\n`).join('')}`,
  );
  return `${filled.trimEnd()}\n${sections.join('')}`;
}

/** The keys of a kind of circuit that are figures. */
function keysOfKind(kind: string): Key[] {
  const circuit = valueShape(childShape(sheetShape, 'circuits'));
  const shape = circuit?.kind === 'kinds' ? circuit.kinds.get(kind) : undefined;
  return [...(shape?.keys.values() ?? [])].filter(
    ({ name, shape: { kind: sort } }) => sort === 'leaf' && ![kind, 'does', 'about'].includes(name),
  );
}

const valueShape = (shape: Shape | undefined): Shape | undefined =>
  shape?.kind === 'entries' ? shape.value : undefined;

const isSaid = (map: MapNode | undefined, name: string): boolean =>
  map?.pairs.some(({ key }) => key.text === name) ?? false;

/** A value of the size that the reference names as an example; of a choice, one of its words. */
export function usualValue({ shape, doc }: Key): string | undefined {
  if (shape.kind !== 'leaf') return undefined;
  const { leaf } = shape;
  if (leaf.kind === 'yes-no') return 'yes';
  if (leaf.kind === 'choice') return Object.keys(leaf.choices)[0];
  return /such as `([^`]+)`/.exec(doc)?.[1];
}
