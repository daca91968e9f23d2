import type { MachineAnalysis } from '../../analysis.ts';
import type { Edit } from '../../problem.ts';
import { valueUnder } from '../../syntax/node.ts';
import { formatBest, formatNumber } from '../../units/index.ts';
import { addEntry } from '../common/edits.ts';

/**
 * Adds a resistor with the terminals 1 and 2 to the parts of a machine.
 * @param watts its rating
 * @param least the least number that it is called by, so that several can be added at once
 */
export function addResistorPart(
  analysis: MachineAnalysis,
  ohms: number,
  watts: number,
  least = 1,
): { readonly name: string; readonly edit: Edit } | undefined {
  const { tree } = analysis;
  const parts = valueUnder(tree.root, 'parts');
  const name = freeName(analysis, least);
  const facts = `{ class: load, terminals: { leads: [1, 2] }, circuits: { resistor: { resistor: [1, 2], resistance: ${formatBest(ohms, 'resistance')}, power: ${formatNumber(watts)} W } } }`;
  const edit = parts?.kind === 'map' ? addEntry(tree, parts, `${name}: ${facts}`) : undefined;
  return edit && { name, edit };
}

function freeName({ machine }: MachineAnalysis, least: number): string {
  for (let number = least; ; number++)
    if (!machine.parts.has(`resistor-${number}`)) return `resistor-${number}`;
}
