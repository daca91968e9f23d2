import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { groupBy } from '../../group.ts';
import { nearestName } from '../../nearest.ts';
import { fact } from '../../reuse/fact.ts';
import type { Block, Span } from '../../syntax/node.ts';
import { isBroken } from '../../syntax/yaml-block.ts';
import type { Derived, Input } from '../../values/derived.ts';
import { unknownParts } from '../name/references.ts';
import { defaultsInDoubt, isAxisInDoubt, isDefaultInDoubt } from './in-doubt.ts';

const problemsByBlock = fact('analysis', ({ problems }: Analysis) =>
  groupBy(problems, (problem): Block => problem.at.block),
);

/**
 * True where a reader already found fault with a place, or where what stands there is in doubt because of a fault beside
 * it: what follows from its value is held back until that is cured.
 */
export function isFaulty(analysis: Analysis, at: Span): boolean {
  if (isDefaultInDoubt(analysis, at)) return true;
  if (analysis.problems.length === 0) return false;
  return (problemsByBlock(analysis).get(at.block) ?? []).some(
    (problem) => problem.at.from <= at.to && problem.at.to >= at.from,
  );
}

/** True when a derived value rests on something that is at fault, however far back. */
export function restsOnFault(analysis: Analysis, value: Derived): boolean {
  if (analysis.problems.length === 0 && defaultsInDoubt(analysis).size === 0) return false;
  const seen = new Set<string>();
  const isBad = (input: Input): boolean => {
    if (input.at && isFaulty(analysis, input.at)) return true;
    if (input.address === undefined || seen.has(input.address)) return false;
    seen.add(input.address);
    if (isOfDoubtfulAxis(analysis, input.address)) return true;
    return analysis.values.byAddress.get(input.address)?.inputs.some(isBad) ?? false;
  };
  return isOfDoubtfulAxis(analysis, value.address) || value.inputs.some(isBad);
}

function isOfDoubtfulAxis(analysis: Analysis, address: string): boolean {
  const axis = /^axes\.([^.]+)\./.exec(address)?.[1];
  return axis !== undefined && isAxisInDoubt(analysis, axis);
}

/** A value that can be shown: not one that rests on something which a finding rejects. */
export function soundValue(analysis: Analysis, address: string): Derived | undefined {
  const value = analysis.values.byAddress.get(address);
  return value && !restsOnFault(analysis, value) ? value : undefined;
}

/** True while a part of the text is not YAML: something that seems to be missing may stand there. */
export const isAnyBlockBroken = fact('analysis', ({ tree }: Analysis): boolean => tree.blocks.some(isBroken));

/** The parts whose wiring cannot be judged yet, because a link that was probably meant for them is at fault. */
export const partsInDoubt = fact('analysis', findInDoubt);

function findInDoubt({ machine, problems }: MachineAnalysis): ReadonlySet<string> {
  const doubtful = new Set<string>();
  for (const { name } of unknownParts(machine)) {
    const near = nearestName(name, machine.parts.keys());
    if (near !== undefined) doubtful.add(near);
  }
  for (const { from, to } of machine.links) {
    if (from.part === to.part && from.terminal === to.terminal) doubtful.add(from.part);
    for (const end of [from, to]) {
      const sheet = machine.parts.get(end.part)?.sheet;
      if (sheet && !sheet.terminals.has(end.terminal)) doubtful.add(end.part);
    }
  }
  for (const { code, data } of problems) {
    if (code !== 'shape/link' || typeof data.text !== 'string') continue;
    for (const word of data.text.split(/[^\w-]+/)) if (machine.parts.has(word)) doubtful.add(word);
  }
  return doubtful;
}
