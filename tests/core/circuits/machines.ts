import fs from 'node:fs';
import path from 'node:path';
import {
  type SolvedInput,
  type SolvedMachine,
  solveMachine,
} from '../../../server/core/circuits/solve/inputs.ts';
import { readMachineText } from '../../../server/core/model/machine.ts';
import { type Machine, resolveMachine } from '../../../server/core/model/resolve.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import type { World } from '../../../server/core/world.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { ROOT } from '../../support/lsp-client.ts';

/** Sheets by their file, read from disk once. */
const sheets = new Map<string, string | undefined>();

function readSheetFile(folder: string, id: string): string | undefined {
  const file = id.startsWith('generic/')
    ? path.join(ROOT, 'server/parts', `${id.slice('generic/'.length)}.part.yaml`)
    : path.join(folder, id);
  if (!sheets.has(file)) sheets.set(file, fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : undefined);
  return sheets.get(file);
}

/** A world of the sheets that ship and those in a folder. */
const worldOf = (folder: string): World => ({
  resolve: (_, name) => name,
  file: (id) => {
    const text = readSheetFile(folder, id);
    return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
  },
  library: [],
  projectFiles: () => [],
  newProjectFile: () => '.fettle.yaml',
  sheetsNear: () => [],
  pathTo: () => undefined,
  definitions: () => [],
  nameOf: (id) => id,
});

export const sheetWorld = worldOf(EXAMPLE_FOLDER);

/** Every example that ships, by its file. */
export function exampleMachines(): [name: string, machine: Machine][] {
  const folder = path.join(ROOT, 'examples');
  return fs.globSync('*/*.machine.yaml', { cwd: folder }).map((name) => {
    const file = path.join(folder, name);
    return [name, machineOf(fs.readFileSync(file, 'utf8'), worldOf(path.dirname(file)))];
  });
}

/** A machine from its text, with sheets from the library. */
export function machineOf(text: string, world = sheetWorld): Machine {
  const trees = createTrees();
  const tree = trees.read('test.machine.yaml', text);
  return resolveMachine('test.machine.yaml', readMachineText(tree.root), world, trees);
}

export const solveText = (text: string): SolvedMachine => solveMachine(machineOf(text));

export const exampleMachine = (): Machine => machineOf(readExample());

/** An input by `part.circuit`. */
export function inputOf({ inputs }: SolvedMachine, name: string): SolvedInput {
  const found = inputs.find(({ at }) => `${at.part.name}.${at.circuit.name}` === name);
  if (!found)
    throw new Error(
      `no input ${name}; there are ${inputs.map(({ at }) => `${at.part.name}.${at.circuit.name}`).join(', ')}`,
    );
  return found;
}
