import fs from 'node:fs';
import path from 'node:path';
import { buildNets } from '../../../server/core/circuits/nets.ts';
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

/** The sheets that ship and the example's own, read from disk once for each text. */
const sheets = new Map<string, string | undefined>();

function readSheetFile(id: string): string | undefined {
  if (!sheets.has(id)) {
    const file = id.startsWith('generic/')
      ? path.join(ROOT, 'server/parts', `${id.slice('generic/'.length)}.part.yaml`)
      : path.join(EXAMPLE_FOLDER, id);
    sheets.set(id, fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : undefined);
  }
  return sheets.get(id);
}

/** A world of the sheets that ship and the example's own. */
export const sheetWorld: World = {
  resolve: (_, name) => name,
  file: (id) => {
    const text = readSheetFile(id);
    return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
  },
  library: [],
  sheetsNear: () => [],
  nameOf: (id) => id,
};

/** A machine from its text, with sheets from the library. */
export function machineOf(text: string): Machine {
  const trees = createTrees();
  const tree = trees.read('test.machine.yaml', text);
  return resolveMachine('test.machine.yaml', readMachineText(tree.root), sheetWorld, trees);
}

export const solveText = (text: string): SolvedMachine => solveMachine(machineOf(text));

export const netsOf = (text: string) => buildNets(machineOf(text));

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
