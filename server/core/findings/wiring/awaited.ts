import type { MachineAnalysis } from '../../analysis.ts';
import type { OpenCircuit, OpenCircuits } from '../../circuits/loops/open-circuits.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { purposesOf } from './purposes.ts';

/**
 * The inputs that may lack a wire from an open contact or sensor: they are set to be in use, nothing is wired to them,
 * and they share its supply. What the machine says of the part decides, if it says anything.
 */
export function awaitedInputs(
  analysis: MachineAnalysis,
  circuits: OpenCircuits,
  { legs, islands }: OpenCircuit,
): CircuitAt[] {
  const unwired = inputsInUse(analysis).filter((input) => islands.has(returnIsland(circuits, input)));
  const parts = [...new Set(legs.flatMap(({ at }) => at?.part.name ?? []))];
  const purposes = new Set(parts.flatMap((part) => purposesOf(analysis, part)));
  if (purposes.size === 0) return unwired.length > 1 ? [] : unwired;
  return unwired.filter(({ circuit }) => purposes.has(circuit.figures.text('does')?.value ?? ''));
}

/** The inputs that a setting has in use, and at whose own terminal no link ends. */
function inputsInUse({ machine, nets }: MachineAnalysis): CircuitAt[] {
  return partsWithSheets(machine).flatMap(({ part, sheet }) =>
    [...sheet.settings.values()].flatMap((setting): CircuitAt[] => {
      const circuit = setting.is === 'input-use' ? sheet.circuits.get(setting.circuit ?? '') : undefined;
      if (!circuit || nets.isWired(terminalId(part.name, circuit.ends[0]?.text ?? ''))) return [];
      const keyed = keyedInMeaning(machine.file, part, 'input-use', { circuit: circuit.name });
      return keyed?.scalar.text === 'on' ? [{ part, circuit }] : [];
    }),
  );
}

/** The island on which the current of an input comes back; -1 where there is none. */
function returnIsland({ nodeOf, placeOf, islandOf }: OpenCircuits, { part, circuit }: CircuitAt): number {
  const place = placeOf.get(terminalId(part.name, circuit.ends[1]?.text ?? ''));
  const node = place === undefined ? undefined : nodeOf[place];
  return (node === undefined ? undefined : islandOf(node)) ?? -1;
}
