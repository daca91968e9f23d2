import { ROLE_TEXTS } from '../../../schemas/index.ts';
import { type Analysis, shapeOf } from '../analysis.ts';
import { said, say } from '../language/say.ts';
import { pick } from '../pick.ts';
import type { Key, LeafShape, Shape } from '../shape/shape.ts';
import { startOfLine } from '../syntax/lines.ts';
import { completeLink } from './complete-link.ts';
import { completeSetting, completeSettingName } from './complete-setting.ts';
import { completeRecord } from './complete-step.ts';
import { completeUnit } from './complete-unit.ts';
import type { Completion, PlacedCompletion } from './completion-item.ts';
import type { Cursor } from './cursor.ts';
import { readSpot, type Spot } from './cursor-line.ts';
import { completeSnippets } from './snippets.ts';

/** What could be written at an offset, best first. */
export function complete(analysis: Analysis, offset: number): PlacedCompletion[] {
  const { text } = analysis.tree;
  const spot = readSpot(text, offset);
  if (!spot) return [];
  const { cursor, indent } = spot;
  const shapes = shapesAt(shapeOf(analysis), cursor.path, cursor.siblings);
  const column = indent?.blanks ?? cursor.from - startOfLine(text, cursor.from);
  const found = [
    ...(analysis.kind === 'machine' ? completeOwnNames(analysis, cursor, shapes) : []),
    ...(cursor.wants === 'key' ? shapes.flatMap((shape) => completeKeys(shape, cursor)) : []),
    ...(cursor.wants === 'value'
      ? shapes.flatMap((shape) => (shape.kind === 'leaf' ? completeLeaf(analysis, shape, cursor) : []))
      : []),
    // A whole entry is written where nothing else stands on the line.
    ...(/^[\w-]*[ \t]*(?:\r?\n|$)/.test(text.slice(offset))
      ? completeSnippets(analysis, cursor, column)
      : []),
  ];
  const unique = new Map(found.map((item) => [item.label, item]));
  const sorted = [...unique.values()].sort((a, b) => a.rank - b.rank || (a.label < b.label ? -1 : 1));
  return sorted.map((item) => place(text, offset, cursor.inFlow, indent ? withBlanks(item, indent) : item));
}

/** A new line that is a blank off is written where its neighbours stand. */
function withBlanks(item: Completion, { from, blanks }: NonNullable<Spot['indent']>): Completion {
  return rewrite(item, ' '.repeat(blanks) + item.insert, from);
}

/** Takes the rest of the word that the cursor stands in, and gives the blank that a colon needs behind it. */
function place(text: string, offset: number, inFlow: boolean, item: Completion): PlacedCompletion {
  const tail = /^[^\s,:{}[\]#"'>]*/.exec(text.slice(offset))?.[0] ?? '';
  const to = offset + tail.length;
  const isKey = /:\s*$/.test(item.insert) && !item.insert.includes('\n');
  const hasColon = isKey && /^[ \t]*:/.test(text.slice(to));
  const insert = hasColon
    ? item.insert.replace(/:\s*$/, '')
    : item.insert + commaBefore(text, to, inFlow && isKey);
  const needsBlank = text[item.from - 1] === ':' && !insert.startsWith(' ');
  return Object.assign(rewrite(item, needsBlank ? ` ${insert}` : insert, item.from), { to });
}

/** In braces a key that is put before another needs a comma behind it. */
function commaBefore(text: string, to: number, isKey: boolean): string {
  return isKey && /^(?:\s+|(?<=\s)#[^\n]*)*[^\s,}\]#]/.test(text.slice(to, to + 400)) ? ', ' : '';
}

/** The same with another text; its documentation stays unread. */
function rewrite(item: Completion, insert: string, from: number): Completion {
  const { label, kind, detail, rank } = item;
  return {
    label,
    kind,
    detail,
    rank,
    insert,
    from,
    get documentation() {
      return item.documentation;
    },
  };
}

function completeOwnNames(
  analysis: Extract<Analysis, { kind: 'machine' }>,
  cursor: Cursor,
  shapes: readonly Shape[],
): Completion[] {
  const [section, part = '', third, setting = ''] = cursor.path;
  if (section === 'parts' && third === 'set') {
    return cursor.wants === 'key'
      ? completeSettingName(analysis, part, cursor)
      : completeSetting(analysis, part, setting, cursor);
  }
  if (section === 'records' && cursor.wants === 'value') return completeRecord(analysis, cursor);
  if (cursor.wants === 'key' && cursor.siblings.length > 0) return [];
  const isLink = shapes.some((shape) => shape.kind === 'leaf' && shape.leaf.kind === 'link');
  if (isLink || (section === 'wiring' && cursor.path.at(-1) === '-' && !cursor.inFlow))
    return completeLink(analysis, cursor);
  return [];
}

/** The shapes that can stand under a path of keys; unions give all their branches. */
function shapesAt(root: Shape, path: readonly string[], siblings: readonly string[]): Shape[] {
  let shapes = opened(root, []);
  for (const [index, step] of path.entries()) {
    const beside = index === path.length - 1 ? siblings : [];
    shapes = shapes.flatMap((shape) => stepInto(shape, step)).flatMap((shape) => opened(shape, beside));
  }
  return shapes;
}

function stepInto(shape: Shape, step: string): Shape[] {
  if (shape.kind === 'entries') return [shape.value];
  if (shape.kind === 'list') return step === '-' ? [shape.item] : [];
  const key = shape.kind === 'map' ? shape.keys.get(step) : undefined;
  return key ? [key.shape] : [];
}

/** Opens unions. Of the kinds of circuit those remain whose own key is there already, or all while none is. */
function opened(shape: Shape, siblings: readonly string[]): Shape[] {
  if (shape.kind === 'either') return shape.branches.flatMap((branch) => opened(branch, siblings));
  if (shape.kind !== 'kinds') return [shape];
  const chosen = [...shape.kinds].filter(([name]) => siblings.includes(name));
  return (chosen.length > 0 ? chosen : [...shape.kinds]).map(([, map]) => map);
}

function completeKeys(shape: Shape, cursor: Cursor): Completion[] {
  if (shape.kind !== 'map') return [];
  return [...shape.keys.values()]
    .filter((key) => !cursor.siblings.includes(key.name))
    .map((key, index) => keyItem(key, cursor, index));
}

function keyItem(key: Key, cursor: Cursor, index: number): Completion {
  return {
    label: key.name,
    kind: 'key',
    detail: key.required ? say`needed` : '',
    documentation: said(key.doc),
    insert: key.shape.kind === 'leaf' || cursor.inFlow ? `${key.name}: ` : `${key.name}:`,
    from: cursor.from,
    rank: key.required ? index : 100 + index,
  };
}

function completeLeaf(analysis: Analysis, { leaf, doc: english }: LeafShape, cursor: Cursor): Completion[] {
  const doc = said(english);
  const item =
    (kind: Completion['kind']) =>
    (label: string, index: number, detail = ''): Completion => ({
      label,
      kind,
      detail,
      documentation: doc,
      insert: label,
      from: cursor.from,
      rank: index,
    });
  switch (leaf.kind) {
    case 'choice':
      return Object.entries(leaf.choices).map(([word, about], index) => ({
        ...item('choice')(word, index),
        documentation: said(about),
      }));
    case 'yes-no':
      return ['yes', 'no'].map((word, index) => item('choice')(word, index));
    case 'role':
      return ROLE_TEXTS.map((word, index) => item('choice')(word, index));
    case 'quantity':
    case 'span':
      return completeUnit(leaf.units, cursor, doc);
    case 'name':
      return completeName(analysis, leaf.of, cursor, doc);
    default:
      return [];
  }
}

function completeName(
  analysis: Analysis,
  of: 'part' | 'sheet' | 'axis' | 'circuit',
  cursor: Cursor,
  doc: string,
): Completion[] {
  const item = (label: string, kind: Completion['kind'], detail: string, rank: number): Completion => ({
    label,
    kind,
    detail,
    documentation: doc,
    insert: label,
    from: cursor.from,
    rank,
  });
  if (of === 'circuit')
    return analysis.kind === 'part'
      ? [...analysis.sheet.circuits.keys()].map((name, index) => item(name, 'choice', '', index))
      : [];
  if (analysis.kind !== 'machine') return [];
  if (of === 'sheet') {
    const near = analysis.world
      .sheetsNear(analysis.file)
      .map((name, index) => item(name, 'sheet', say`in this workspace`, index));
    return [
      ...near,
      ...analysis.world.library.map((name, index) =>
        item(name, 'sheet', say`ships with the tool`, 1000 + index),
      ),
    ];
  }
  if (of === 'axis')
    return [...analysis.machine.axes.keys()].map((name, index) => item(name, 'choice', '', index));
  const wanted = pick(CLASSES_FOR, cursor.path.at(cursor.path.at(-1) === '-' ? -2 : -1));
  return [...analysis.machine.parts.values()].map((part, index) => {
    const fits = wanted === undefined || wanted.includes(part.sheet?.partClass ?? '');
    return item(part.name, 'part', part.sheet?.title ?? '', fits ? index : 1000 + index);
  });
}

/** Which classes of part a key usually names; they are offered first. */
const CLASSES_FOR: Readonly<Record<string, readonly string[]>> = {
  drive: ['drive'],
  motor: ['motor', 'spindle'],
  converter: ['converter'],
  far: ['switch', 'sensor'],
  near: ['switch', 'sensor'],
  home: ['switch', 'sensor'],
  part: ['handwheel'],
};
