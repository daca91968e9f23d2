import type { Problem } from '../problem.ts';
import { keptBy } from '../reuse/kept-by.ts';
import { type Entry, type Fields, fieldsOf } from '../shape/fields.ts';
import { machineShape } from '../shape/shapes.ts';
import { type Node, pairOf, type Scalar, valueUnder } from '../syntax/node.ts';
import type { FileId } from '../world.ts';
import { hasFacts, type Sheet } from './sheet.ts';
import { type Link, readWiring } from './wiring.ts';

/** Where the facts of a part come from, before they have been looked up. */
export interface PartEntry {
  readonly name: string;
  readonly key: Scalar;
  readonly node: Node | undefined;
  /** The name of a sheet; undefined when the facts stand in the machine itself, or are missing. */
  readonly sheetName: Scalar | undefined;
  readonly assigned: ReadonlyMap<string, Assigned>;
  readonly place: string | undefined;
}

/** What `set:` says of one setting. */
export interface Assigned {
  readonly key: Scalar;
  readonly value: Scalar | undefined;
}

/** A part with its facts; the sheet is undefined while it cannot be found. */
export interface Part extends PartEntry {
  readonly sheet: Sheet | undefined;
  readonly sheetFile: FileId | undefined;
}

export interface AxisEntry {
  readonly name: string;
  readonly key: Scalar;
  readonly fields: Fields;
  readonly drives: readonly Scalar[];
  readonly motors: readonly Scalar[];
}

/** What a machine's text says, before any sheet is looked up. */
export interface MachineText {
  readonly title: string;
  readonly fields: Fields;
  readonly parts: ReadonlyMap<string, PartEntry>;
  readonly links: readonly Link[];
  readonly cables: readonly Cable[];
  readonly axes: ReadonlyMap<string, AxisEntry>;
  readonly problems: readonly Problem[];
}

export interface Cable {
  readonly name: string;
  readonly key: Scalar;
  readonly fields: Fields;
}

/** Reads a machine. Never throws: what is not understood is left out, and the shape check says why. */
export function readMachineText(root: Node | undefined): MachineText {
  return root ? readRoot(root) : readAnew(undefined);
}

const readRoot = keptBy((root: Node) => readAnew(root));

function readAnew(root: Node | undefined): MachineText {
  const fields = fieldsOf(root, machineShape);
  const wiring = readWiring(valueUnder(root, 'wiring'));
  const parts = readParts(fields.child('parts'));
  const axes = readAxes(fields.child('axes'));
  return {
    title: fields.text('machine')?.value ?? '',
    fields,
    parts: parts.byName,
    links: wiring.links,
    cables: wiring.cables,
    axes: axes.byName,
    problems: [...wiring.problems, ...parts.problems, ...axes.problems],
  };
}

/** The entries of a section by their names, and what is wrong with them. */
interface Section<T> {
  readonly byName: ReadonlyMap<string, T>;
  readonly problems: readonly Problem[];
}

const readParts = keptBy((section: Fields): Section<PartEntry> => {
  const entries = section.entries();
  return {
    byName: new Map(entries.map(({ key, value }) => [key.text, readPart(key, value)])),
    problems: entries.flatMap(checkHasSheet),
  };
});

const readAxes = keptBy((section: Fields): Section<AxisEntry> => {
  const entries = section.entries();
  return {
    byName: new Map(entries.map(({ key, fields }) => [key.text, readAxis(key, fields)])),
    problems: entries.flatMap(checkHasLead),
  };
});

/** A part needs the name of a sheet, or its facts in place of one. */
function checkHasSheet({ key, value }: Entry): Problem[] {
  if (value?.kind !== 'map' || pairOf(value, 'sheet') || hasFacts(value)) return [];
  return [{ code: 'shape/missing-key', at: key, data: { owner: key.text, missing: ['sheet'] } }];
}

/** A screw moves nothing without its lead, or the pitch that makes it. */
function checkHasLead({ fields }: Entry): Problem[] {
  const screw = pairOf(fields.node, 'screw');
  if (screw?.value?.kind !== 'map' || pairOf(screw.value, 'lead') || pairOf(screw.value, 'pitch')) return [];
  return [{ code: 'shape/missing-key', at: screw.key, data: { owner: 'screw', missing: ['lead'] } }];
}

/** The entries as they were read last, by their keys, which stay the same while their text does. */
const keptParts = new WeakMap<Scalar, PartEntry>();

function readPart(key: Scalar, node: Node | undefined): PartEntry {
  const known = keptParts.get(key);
  if (known && known.node === node) return known;
  const part = readPartAnew(key, node);
  keptParts.set(key, part);
  return part;
}

function readPartAnew(key: Scalar, node: Node | undefined): PartEntry {
  const sheet = valueUnder(node, 'sheet');
  const place = valueUnder(node, 'at');
  const assigned = new Map<string, Assigned>();
  const set = valueUnder(node, 'set');
  for (const pair of set?.kind === 'map' ? set.pairs : []) {
    assigned.set(pair.key.text, {
      key: pair.key,
      value: pair.value?.kind === 'scalar' ? pair.value : undefined,
    });
  }
  return {
    name: key.text,
    key,
    node,
    sheetName: sheet?.kind === 'scalar' ? sheet : undefined,
    assigned,
    place: place?.kind === 'scalar' ? place.text : undefined,
  };
}

const keptAxes = new WeakMap<Scalar, AxisEntry>();

function readAxis(key: Scalar, fields: Fields): AxisEntry {
  const known = keptAxes.get(key);
  if (known && known.fields === fields) return known;
  const axis = readAxisAnew(key, fields);
  keptAxes.set(key, axis);
  return axis;
}

function readAxisAnew(key: Scalar, fields: Fields): AxisEntry {
  return {
    name: key.text,
    key,
    fields,
    drives: oneOrMore(valueUnder(fields.node, 'drive')),
    motors: oneOrMore(valueUnder(fields.node, 'motor')),
  };
}

/** One name, or a list of them: a second motor on an axis. */
function oneOrMore(node: Node | undefined): Scalar[] {
  if (node?.kind === 'scalar') return [node];
  return node?.kind === 'list' ? node.items.filter((item): item is Scalar => item?.kind === 'scalar') : [];
}
