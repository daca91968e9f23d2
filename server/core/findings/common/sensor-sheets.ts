import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { say } from '../../language/say.ts';
import { type Circuit, readSheet, type Sheet } from '../../model/sheet.ts';
import type { Fix } from '../../problem.ts';
import { readTree } from '../../syntax/tree.ts';
import { replaceScalar } from './edits.ts';

/** In what a sheet must differ from the present one; what is not named must be the same. */
export interface Wanted {
  readonly switching?: 'other';
  readonly rest?: 'other';
}

const sheets = new Map<string, Sheet>();

/** Sensors of the library that fit in the place of one: the same class and terminals, and another kind or rest state. */
export function otherSensorSheets(
  { world, file }: MachineAnalysis,
  { part, circuit }: CircuitAt,
  wanted: Wanted,
): Fix[] {
  const { sheet, sheetName } = part;
  if (!sheet || !sheetName) return [];
  return world.library.flatMap((name): Fix[] => {
    const state = world.file(world.resolve(file, name));
    if (name === sheetName.text || state?.kind !== 'text') return [];
    const other = readOnce(name, state.text);
    if (!isSameForm(sheet, other)) return [];
    const output = [...other.circuits.values()].find(({ kind }) => kind === circuit.kind);
    if (!output || !differsAs(circuit, output, 'switching', wanted.switching)) return [];
    if (!differsAs(circuit, output, 'rest', wanted.rest)) return [];
    return [
      { title: say`Use ${name} for ${part.name}`, edits: [replaceScalar(sheetName, name)], safe: false },
    ];
  });
}

function readOnce(name: string, text: string): Sheet {
  const key = `${name}\n${text}`;
  let sheet = sheets.get(key);
  if (!sheet) {
    sheet = readSheet(name, readTree(text).root);
    sheets.set(key, sheet);
  }
  return sheet;
}

function isSameForm(a: Sheet, b: Sheet): boolean {
  return (
    a.partClass === b.partClass &&
    a.terminals.size === b.terminals.size &&
    [...a.terminals.keys()].every((terminal) => b.terminals.has(terminal))
  );
}

function differsAs(a: Circuit, b: Circuit, key: string, how: 'other' | undefined): boolean {
  const isSame = a.figures.text(key)?.value === b.figures.text(key)?.value;
  return isSame === (how === undefined);
}
