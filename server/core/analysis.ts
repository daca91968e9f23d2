import { type Nets, netsOf } from './circuits/nets.ts';
import { type Feed, feedsOf } from './circuits/supply.ts';
import { checkAssigned } from './model/assigned.ts';
import { readMachineText } from './model/machine.ts';
import { checkOwnSheets, checkSettings } from './model/own-settings.ts';
import { type Machine, partsOf, resolveMachine } from './model/resolve.ts';
import { readSheetTree, type Sheet } from './model/sheet.ts';
import { checkSize } from './model/size.ts';
import type { Trees } from './model/trees.ts';
import type { Problem } from './problem.ts';
import { findProject, NO_PROJECT, type Project } from './project/project.ts';
import { Version } from './reuse/version.ts';
import { checkShape } from './shape/check.ts';
import type { MapShape } from './shape/shape.ts';
import { machineShape, projectShape, sheetShape } from './shape/shapes.ts';
import type { Tree } from './syntax/tree.ts';
import { trackAnalysis } from './tracked-analysis.ts';
import { gatherValues, type Values } from './values/derived.ts';
import { deriveValues } from './values/values.ts';
import { type FileId, isProjectFile, isSheetFile, type World } from './world.ts';

interface Common {
  /** What results of this file are kept under. */
  readonly version: Version;
  readonly file: FileId;
  readonly tree: Tree;
  /** What the readers noticed; the findings give it words. */
  readonly problems: readonly Problem[];
  readonly values: Values;
  /** Files that have to be fetched before the analysis is complete. */
  readonly wants: readonly FileId[];
  readonly world: World;
  /** What holds for all definitions of its folder. */
  readonly project: Project;
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

/** A `.fettle.yaml` by itself. */
export interface ProjectAnalysis extends Common {
  readonly kind: 'project';
}

/** The shape of the kind of file that was analysed. */
export function shapeOf({ kind }: Pick<Analysis, 'kind'>): MapShape {
  return { machine: machineShape, part: sheetShape, project: projectShape }[kind];
}

/** One version of one text, analysed: an immutable value that every feature reads. */
export type Analysis = MachineAnalysis | SheetAnalysis | ProjectAnalysis;

const NO_VALUES = gatherValues();
const NO_MACHINE = readMachineText(undefined);

/**
 * Analyses a text in its world. Pure: the same texts give the same result.
 * @param trees keeps parsed texts, so that an edit pays only for what it touched
 */
export function analyse(file: FileId, text: string, world: World, trees: Trees): Analysis {
  const tree = trees.read(file, text);
  const name = world.nameOf(file);
  if (isProjectFile(name)) return analyseProject(file, tree, world);
  const wants: FileId[] = [];
  const project = findProject(file, world, trees, wants);
  return isSheetFile(name)
    ? analyseSheet(file, tree, world, project, wants)
    : analyseMachine(file, tree, world, trees, project, wants);
}

function analyseProject(file: FileId, tree: Tree, world: World): ProjectAnalysis {
  const problems = [...tree.problems, ...checkShape(tree.root, projectShape)];
  return underItsOwnVersion({
    kind: 'project',
    file,
    tree,
    problems,
    values: NO_VALUES,
    wants: [],
    world,
    project: NO_PROJECT,
  });
}

function analyseSheet(
  file: FileId,
  tree: Tree,
  world: World,
  project: Project,
  wants: readonly FileId[],
): SheetAnalysis {
  const sheet = readSheetTree(file, tree);
  const problems = [...tree.problems, ...checkShape(tree.root, sheetShape), ...checkSettings(sheet)];
  return underItsOwnVersion({
    kind: 'part',
    file,
    tree,
    sheet,
    problems,
    values: NO_VALUES,
    wants,
    world,
    project,
  });
}

/** Sheets and projects are small: what is worked out of them is kept for one version alone. */
function underItsOwnVersion<A extends Omit<Analysis, 'version'>>(
  content: A,
): A & { readonly version: Version } {
  const version = new Version();
  const analysis = { ...content, version };
  version.hosts.set('analysis', analysis);
  return analysis;
}

function analyseMachine(
  file: FileId,
  tree: Tree,
  world: World,
  trees: Trees,
  project: Project,
  wants: readonly FileId[],
): MachineAnalysis {
  const whole = readMachineText(tree.root);
  const tooLarge = checkSize(tree.root, whole);
  // What is too large is a machine of nothing to everything that computes.
  const text = tooLarge ? NO_MACHINE : whole;
  const machine = resolveMachine(file, text, world, trees, project);
  const nets = netsOf(machine);
  const parts = partsOf(machine);
  const problems = [
    ...tree.problems,
    ...checkShape(tree.root, machineShape),
    ...whole.problems,
    ...(tooLarge ? [tooLarge] : []),
    ...checkAssigned(parts),
    ...checkOwnSheets(parts),
  ];
  return trackAnalysis({
    file,
    tree,
    machine,
    nets,
    feedsOf,
    problems,
    valuesOf: deriveValues,
    wants: [...wants, ...machine.wants],
    world,
    project,
  });
}
