import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { nearestName } from '../../nearest.ts';
import type { Problem } from '../../problem.ts';
import type { Block, Span } from '../../syntax/node.ts';
import type { Tree } from '../../syntax/tree.ts';
import { isBroken } from '../../syntax/yaml-block.ts';
import type { Derived, Input } from '../../values/derived.ts';
import { unknownParts } from '../name/references.ts';
import { groupBy } from './group.ts';
import { defaultsInDoubt, isAxisInDoubt, isDefaultInDoubt } from './in-doubt.ts';

const byBlock = new WeakMap<Analysis, ReadonlyMap<Block, readonly Problem[]>>();

/**
 * True where a reader already found fault with a place, or where what stands there is in doubt because of a fault beside
 * it: what follows from its value is held back until that is cured.
 */
export function isFaulty(analysis: Analysis, at: Span): boolean {
  if (isDefaultInDoubt(analysis, at)) return true;
  if (analysis.problems.length === 0) return false;
  let problems = byBlock.get(analysis);
  if (!problems) {
    problems = groupBy(analysis.problems, (problem) => problem.at.block);
    byBlock.set(analysis, problems);
  }
  return (problems.get(at.block) ?? []).some(
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
export function isAnyBlockBroken({ tree }: Analysis): boolean {
  let isAny = broken.get(tree);
  if (isAny === undefined) {
    isAny = tree.blocks.some(isBroken);
    broken.set(tree, isAny);
  }
  return isAny;
}

const broken = new WeakMap<Tree, boolean>();

const inDoubt = new WeakMap<MachineAnalysis, ReadonlySet<string>>();

/** The parts whose wiring cannot be judged yet, because a link that was probably meant for them is at fault. */
export function partsInDoubt(analysis: MachineAnalysis): ReadonlySet<string> {
  let doubtful = inDoubt.get(analysis);
  if (!doubtful) {
    doubtful = findInDoubt(analysis);
    inDoubt.set(analysis, doubtful);
  }
  return doubtful;
}

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
