import { CIRCUIT_KINDS } from '../../../schemas/index.ts';
import { type Fields, fieldsOf, type Given } from '../shape/fields.ts';
import { sheetShape } from '../shape/shapes.ts';
import { type MapNode, type Node, pairOf, type Scalar, valueUnder } from '../syntax/node.ts';
import type { Tree } from '../syntax/tree.ts';
import type { FileId } from '../world.ts';
import { type Role, readRole } from './role.ts';

/** A terminal as it is printed on the part, in its group, in its order. */
export interface Terminal {
  readonly name: string;
  readonly group: string;
  readonly at: Scalar;
}

/** What is inside a part between some of its terminals. */
export interface Circuit {
  readonly name: string;
  readonly key: Scalar;
  /** A key of CIRCUIT_KINDS. */
  readonly kind: string;
  /** The terminals in the order of the kind: plus before minus, out before return, and so on. */
  readonly ends: readonly Scalar[];
  readonly does: Role | undefined;
  readonly figures: Fields;
}

/** Something that can be set on a part. */
export interface Setting {
  readonly name: string;
  readonly key: Scalar;
  /** What the setting means to the tool; undefined for settings that are only carried. */
  readonly is: string | undefined;
  readonly axis: string | undefined;
  readonly circuit: string | undefined;
  readonly choices: readonly string[];
  readonly initial: Scalar | undefined;
  readonly fields: Fields;
}

/** The facts of one model of part, whether from a sheet of its own or written into the machine. */
export interface Sheet {
  readonly file: FileId;
  readonly title: string;
  readonly partClass: string;
  readonly terminals: ReadonlyMap<string, Terminal>;
  readonly circuits: ReadonlyMap<string, Circuit>;
  readonly settings: ReadonlyMap<string, Setting>;
  readonly facts: Fields;
}

const byTree = new WeakMap<Tree, Sheet>();

/** The sheet that a text says, read once for each version of it. Never throws: what is not understood is left out. */
export function readSheetTree(file: FileId, tree: Tree): Sheet {
  let sheet = byTree.get(tree);
  if (!sheet) {
    sheet = readSheet(file, tree.root);
    byTree.set(tree, sheet);
  }
  return sheet;
}

/** Facts may stand in the machine itself, with the keys of a sheet; any of these tells that they do. */
export function hasFacts(node: Node | undefined): boolean {
  return ['class', 'terminals', 'circuits'].some((key) => pairOf(node, key) !== undefined);
}

/** Reads the facts of a part from a map with a sheet's keys. */
export function readSheet(file: FileId, node: Node | undefined): Sheet {
  const fields = fieldsOf(node, sheetShape);
  return {
    file,
    title: fields.text('part')?.value ?? '',
    partClass: fields.text('class')?.value ?? '',
    terminals: readTerminals(valueUnder(node, 'terminals')),
    circuits: readCircuits(fields.child('circuits')),
    settings: readSettings(fields.child('settings')),
    facts: fields.child('facts'),
  };
}

function readTerminals(node: Node | undefined): Map<string, Terminal> {
  const terminals = new Map<string, Terminal>();
  for (const { key, value } of node?.kind === 'map' ? node.pairs : []) {
    for (const item of value?.kind === 'list' ? value.items : []) {
      if (item?.kind === 'scalar' && !terminals.has(item.text)) {
        terminals.set(item.text, { name: item.text, group: key.text, at: item });
      }
    }
  }
  return terminals;
}

function readCircuits(section: Fields): Map<string, Circuit> {
  const circuits = new Map<string, Circuit>();
  for (const { key, fields } of section.entries()) {
    const kind = fields.node && kindOf(fields.node);
    if (!kind) continue;
    circuits.set(key.text, {
      name: key.text,
      key,
      kind,
      ends: scalarsOf(valueUnder(fields.node, kind)),
      does: readRole(fields.text('does')?.value),
      figures: fields,
    });
  }
  return circuits;
}

function kindOf(node: MapNode): string | undefined {
  return [...CIRCUIT_KINDS.keys()].find((kind) => pairOf(node, kind) !== undefined);
}

function scalarsOf(node: Node | undefined): Scalar[] {
  if (node?.kind === 'scalar') return [node];
  return node?.kind === 'list' ? node.items.filter((item): item is Scalar => item?.kind === 'scalar') : [];
}

function readSettings(section: Fields): Map<string, Setting> {
  const settings = new Map<string, Setting>();
  for (const { key, fields } of section.entries()) {
    const initial = valueUnder(fields.node, 'default');
    settings.set(key.text, {
      name: key.text,
      key,
      is: textIn(fields.text('is')),
      axis: textIn(fields.text('axis')),
      circuit: textIn(fields.text('circuit')),
      choices: scalarsOf(valueUnder(fields.node, 'choices')).map((choice) => choice.text),
      initial: initial?.kind === 'scalar' ? initial : undefined,
      fields,
    });
  }
  return settings;
}

function textIn(given: Given<string> | undefined): string | undefined {
  return given?.value;
}
