import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { nearestName } from '../../nearest.ts';
import { fact } from '../../reuse/fact.ts';
import { factMap } from '../../reuse/fact-map.ts';
import type { Span } from '../../syntax/node.ts';
import type { Derived, Input } from '../../values/derived.ts';
import { endsInQuestion } from '../name/ends-in-question.ts';
import { unknownParts } from '../name/references.ts';
import { defaultsInDoubt, isAxisInDoubt, isDefaultInDoubt } from './in-doubt.ts';
import { problemBlocks, problemsIn } from './problems-in.ts';

/**
 * True where a reader already found fault with a place, or where what stands there is in doubt because of a fault beside
 * it: what follows from its value is held back until that is cured.
 */
export function isFaulty(analysis: Analysis, at: Span): boolean {
  if (isDefaultInDoubt(analysis, at)) return true;
  return problemsIn(analysis, at.block).some(
    (problem) => problem.at.from <= at.to && problem.at.to >= at.from,
  );
}

/** True when a derived value rests on something that is at fault, however far back. */
export function restsOnFault(analysis: Analysis, value: Derived): boolean {
  return faultyValues.get(analysis, value.address) === true;
}

/** The addresses of the values that rest on something at fault. */
const faultyValues = factMap('analysis', findFaultyValues);

function findFaultyValues(analysis: Analysis): ReadonlyMap<string, true> {
  const faulty = new Map<string, true>();
  const [blocks, doubtful] = [problemBlocks(analysis), defaultsInDoubt(analysis)];
  if (blocks.size === 0 && doubtful.size === 0) return faulty;
  const known = new Map<Derived, boolean>();
  const isBadInput = ({ at, of }: Input): boolean =>
    (at !== undefined && (blocks.has(at.block) || doubtful.has(at)) && isFaulty(analysis, at)) ||
    (of !== undefined && isBad(of));
  const isBad = (value: Derived): boolean => {
    const is = known.get(value);
    if (is !== undefined) return is;
    known.set(value, false);
    const found = isOfDoubtfulAxis(analysis, value.address) || value.inputs.some(isBadInput);
    known.set(value, found);
    return found;
  };
  for (const value of analysis.values.byAddress.values()) if (isBad(value)) faulty.set(value.address, true);
  return faulty;
}

function isOfDoubtfulAxis(analysis: Analysis, address: string): boolean {
  if (!address.startsWith('axes.')) return false;
  return isAxisInDoubt(analysis, address.slice('axes.'.length, address.indexOf('.', 'axes.'.length)));
}

/** A value that can be shown: not one that rests on something which a finding rejects. */
export function soundValue(analysis: Analysis, address: string): Derived | undefined {
  const value = analysis.values.byAddress.get(address);
  return value && !restsOnFault(analysis, value) ? value : undefined;
}

/** True while a part of the text is not YAML: something that seems to be missing may stand there. */
export const isAnyBlockBroken = fact('analysis', ({ tree }: Analysis): boolean =>
  tree.read.said.some((parsed) => parsed?.broken),
);

const inDoubt = factMap<MachineAnalysis, string, true>(
  'analysis',
  (analysis) => new Map([...findInDoubt(analysis)].map((name) => [name, true])),
);

/** The parts whose wiring cannot be judged yet, because a link that was probably meant for them is at fault. */
export const partsInDoubt = (
  analysis: MachineAnalysis,
): Pick<ReadonlyMap<string, true>, 'has' | 'size' | 'keys'> => inDoubt.all(analysis);

/** Whether the wiring of one part cannot be judged yet. */
export const isPartInDoubt = (analysis: MachineAnalysis, name: string): boolean =>
  inDoubt.get(analysis, name) === true;

function findInDoubt({ machine, problems }: MachineAnalysis): ReadonlySet<string> {
  const doubtful = new Set<string>();
  for (const { name } of unknownParts(machine)) {
    const near = nearestName(name, machine.parts.keys());
    if (near !== undefined) doubtful.add(near);
  }
  for (const link of endsInQuestion(machine)) if (link) for (const name of link.doubtful) doubtful.add(name);
  for (const { code, data } of problems) {
    if (code !== 'shape/link' || typeof data.text !== 'string') continue;
    // The arrow may stand close behind a name, of which a dash can be the last letter.
    for (const word of data.text.split(/->|[^\w-]+/)) if (machine.parts.has(word)) doubtful.add(word);
  }
  return doubtful;
}
