import { buildNets, type Nets } from './circuits/nets.ts';
import { type Feed, traceFeeds } from './circuits/supply.ts';
import { checkAssigned } from './model/assigned.ts';
import { readMachineText } from './model/machine.ts';
import { checkSettings } from './model/own-settings.ts';
import { type Machine, resolveMachine } from './model/resolve.ts';
import { readSheetTree, type Sheet } from './model/sheet.ts';
import type { Trees } from './model/trees.ts';
import type { Problem } from './problem.ts';
import { checkShape } from './shape/check.ts';
import { machineShape, sheetShape } from './shape/shapes.ts';
import type { Tree } from './syntax/tree.ts';
import { gatherValues, type Values } from './values/derived.ts';
import { deriveValues } from './values/values.ts';
import { type FileId, isSheetFile, type World } from './world.ts';

interface Common {
  readonly file: FileId;
  readonly tree: Tree;
  /** What the readers noticed; the findings give it words. */
  readonly problems: readonly Problem[];
  readonly values: Values;
  /** Files that have to be fetched before the analysis is complete. */
  readonly wants: readonly FileId[];
  readonly world: World;
}

/** A machine with everything that its text means. */
export interface MachineAnalysis extends Common {
  readonly kind: 'machine';
  readonly machine: Machine;
  readonly nets: Nets;
  readonly feeds: readonly Feed[];
}

/** A part sheet by itself. */
export interface SheetAnalysis extends Common {
  readonly kind: 'part';
  readonly sheet: Sheet;
}

/** One version of one text, analysed: an immutable value that every feature reads. */
export type Analysis = MachineAnalysis | SheetAnalysis;

const NO_VALUES = gatherValues([], []);

/**
 * Analyses a text in its world. Pure: the same texts give the same result.
 * @param trees keeps parsed texts, so that an edit pays only for what it touched
 */
export function analyse(file: FileId, text: string, world: World, trees: Trees): Analysis {
  const tree = trees.read(file, text);
  return isSheetFile(world.nameOf(file))
    ? analyseSheet(file, tree, world)
    : analyseMachine(file, tree, world, trees);
}

function analyseSheet(file: FileId, tree: Tree, world: World): SheetAnalysis {
  const sheet = readSheetTree(file, tree);
  const problems = [...tree.problems, ...checkShape(tree.root, sheetShape), ...checkSettings(sheet)];
  return { kind: 'part', file, tree, sheet, problems, values: NO_VALUES, wants: [], world };
}

function analyseMachine(file: FileId, tree: Tree, world: World, trees: Trees): MachineAnalysis {
  const text = readMachineText(tree.root);
  const machine = resolveMachine(file, text, world, trees);
  const nets = buildNets(machine);
  const feeds = traceFeeds(machine, nets);
  const problems = [
    ...tree.problems,
    ...checkShape(tree.root, machineShape),
    ...text.problems,
    ...checkAssigned(machine),
    ...[...machine.parts.values()].flatMap(({ sheet, sheetName }) =>
      sheet && !sheetName ? checkSettings(sheet) : [],
    ),
  ];
  const values = deriveValues(machine, nets, feeds);
  return { kind: 'machine', file, tree, machine, nets, feeds, problems, values, wants: machine.wants, world };
}
