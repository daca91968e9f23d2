import { findSheet } from '../project/find-sheet.ts';
import { NO_PROJECT, type Project } from '../project/project.ts';
import { fact } from '../reuse/fact.ts';
import { keptBy } from '../reuse/kept-by.ts';
import { wholeOf } from '../reuse/tracked-map.ts';
import type { Version } from '../reuse/version.ts';
import type { Node } from '../syntax/node.ts';
import type { FileId, World } from '../world.ts';
import type { MachineText, Part, PartEntry } from './machine.ts';
import { hasFacts, readSheet, readSheetTree, type Sheet } from './sheet.ts';
import { trackMachine } from './tracked-machine.ts';
import type { Trees } from './trees.ts';

/** A machine with the sheets of its parts. */
export interface Machine extends MachineText {
  readonly version: Version;
  readonly file: FileId;
  readonly parts: ReadonlyMap<string, Part>;
  readonly project: Project;
  /** Sheets that were asked for and are not known to exist or not: the shell should fetch them. */
  readonly wants: readonly FileId[];
}

/** The supply network is a part that nobody has to write down. */
export const MAINS = 'mains';

/** Looks up the sheet of each part: in the machine itself, in the workspace, in the library. */
export function resolveMachine(
  file: FileId,
  text: MachineText,
  world: World,
  trees: Trees,
  project: Project = NO_PROJECT,
): Machine {
  const wants: FileId[] = [];
  const parts = resolveParts({ file, world, trees, wants, project, named: new Map() }, text.parts);
  return trackMachine(trees.nextVersion(file), { ...text, file, parts, wants, project });
}

/** What is needed for finding sheets. */
interface Search {
  readonly file: FileId;
  readonly world: World;
  readonly trees: Trees;
  readonly project: Project;
  readonly wants: FileId[];
  /** What was found by the name of a sheet: most parts of a large machine share theirs with others. */
  readonly named: Map<string, FoundSheet>;
}

type FoundSheet = Pick<Part, 'sheet' | 'sheetFile'>;

/** The parts as they were resolved last, with the sheets that were found by their names. */
interface Resolved extends Pick<Search, 'file' | 'named'> {
  readonly parts: ReadonlyMap<string, Part>;
}

const keptAll = new WeakMap<MachineText['parts'], Resolved>();

/** Most edits are made elsewhere: while each name stands for the sheet of before, all parts are those of before. */
function resolveParts(search: Search, entries: MachineText['parts']): ReadonlyMap<string, Part> {
  const known = keptAll.get(entries);
  if (known?.file === search.file && findsSame(search, known.named)) return known.parts;
  const parts = new Map<string, Part>();
  for (const entry of entries.values()) parts.set(entry.name, resolvePart(search, entry));
  keptAll.set(entries, { file: search.file, named: search.named, parts });
  return parts;
}

function findsSame(search: Search, named: Search['named']): boolean {
  let isSame = true;
  // Each name is looked for, since what is wanted for any of them has to be known.
  for (const [name, { sheet, sheetFile }] of named) {
    const found = findNamed(search, name);
    if (found.sheet !== sheet || found.sheetFile !== sheetFile) isSame = false;
  }
  return isSame;
}

/** The parts as they were resolved last: they stay the same objects while their entry and their sheet do. */
const keptParts = new WeakMap<PartEntry, Part>();

function resolvePart(search: Search, entry: PartEntry): Part {
  const { sheet, sheetFile } = readSheetOf(search, entry);
  const known = keptParts.get(entry);
  if (known && known.sheet === sheet && known.sheetFile === sheetFile) return known;
  const part = { ...entry, sheet, sheetFile };
  keptParts.set(entry, part);
  return part;
}

/** The sheets that stand in machines, by their nodes. */
const keptSheets = new WeakMap<Node, Sheet>();

function sheetIn(file: FileId, node: Node): Sheet {
  const known = keptSheets.get(node);
  if (known?.file === file) return known;
  const sheet = readSheet(file, node);
  keptSheets.set(node, sheet);
  return sheet;
}

function readSheetOf(search: Search, { sheetName, node }: PartEntry): FoundSheet {
  if (!sheetName)
    return { sheetFile: undefined, sheet: node && hasFacts(node) ? sheetIn(search.file, node) : undefined };
  return findNamed(search, sheetName.text);
}

function findNamed(search: Search, name: string): FoundSheet {
  const known = search.named.get(name) ?? readNamed(search, name);
  search.named.set(name, known);
  return known;
}

function readNamed(search: Search, name: string): FoundSheet {
  const { world, trees } = search;
  const sheetFile = findSheet(search, name, search.wants);
  const state = world.file(sheetFile);
  const sheet =
    state?.kind === 'text' ? readSheetTree(sheetFile, trees.read(sheetFile, state.text)) : undefined;
  return { sheetFile, sheet };
}

/** The terminals of the supply network, from what `mains:` says: one phase or three. */
export function mainsTerminals(machine: MachineText): readonly string[] {
  const text = machine.fields.text('mains')?.value ?? '';
  return /^\s*3\s*x/i.test(text) ? ['L1', 'L2', 'L3', 'N', 'PE'] : ['L', 'N', 'PE'];
}

/** Every part together with its sheet, leaving out those whose sheet is not known. */
export function partsWithSheets({ parts }: Pick<Machine, 'parts'>): readonly SheetedPart[] {
  return sheetedParts(wholeOf(parts));
}

interface SheetedPart {
  readonly part: Part;
  readonly sheet: Sheet;
}

const sheetedParts = keptBy((parts: Machine['parts']): readonly SheetedPart[] => {
  const list: SheetedPart[] = [];
  for (const part of parts.values()) if (part.sheet) list.push({ part, sheet: part.sheet });
  return list;
});

/** The parts of a machine in their order; the same list while they are the same. */
export const partsOf = fact('machine', ({ parts }: Machine): readonly Part[] => [...parts.values()]);
