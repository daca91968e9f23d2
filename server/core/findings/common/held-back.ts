import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { nearestName } from '../../nearest.ts';
import { changedKeys } from '../../reuse/changed-keys.ts';
import { fact, keepIf } from '../../reuse/fact.ts';
import { factMap } from '../../reuse/fact-map.ts';
import { wholeOf } from '../../reuse/tracked-map.ts';
import { isSameList } from '../../same-list.ts';
import type { Span } from '../../syntax/node.ts';
import type { Derived, Input, Values } from '../../values/derived.ts';
import { endsInQuestion } from '../name/ends-in-question.ts';
import { unknownParts } from '../name/references.ts';
import { axesInDoubt, defaultsInDoubt, isDefaultInDoubt } from './in-doubt.ts';
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

/** The values that rest on something at fault, and what that follows from. */
interface Judged {
  /** What is at fault and what is in doubt. */
  readonly grounds: readonly unknown[];
  readonly values: Values['byAddress'];
  readonly faulty: ReadonlyMap<string, true>;
}

const judged = fact('analysis', judge, keepIf(Object.is));

/** The addresses of the values that rest on something at fault. */
const faultyValues = factMap('analysis', (analysis: Analysis) => judged(analysis).faulty);

/** While the same is at fault as before, only values that are others now are looked at again. */
function judge(analysis: Analysis, before: Judged | undefined): Judged {
  const [blocks, doubtful, axes] = [
    problemBlocks(analysis),
    defaultsInDoubt(analysis),
    axesInDoubt(analysis),
  ];
  const grounds = [blocks, doubtful, axes];
  const values = wholeOf(analysis.values.byAddress);
  if (blocks.size === 0 && doubtful.size === 0 && axes.size === 0) return { grounds, values, faulty: NONE };
  const past = before && isSameList(before.grounds, grounds) ? before : undefined;
  const others = past && changedKeys(past.values, values);
  const known = new Map<Derived, boolean>();
  const isBadInput = ({ at, of }: Input): boolean =>
    (at !== undefined && (blocks.has(at.block) || doubtful.has(at)) && isFaulty(analysis, at)) ||
    (of !== undefined && isBad(of));
  const isBad = (value: Derived): boolean => {
    if (others && !others.has(value.address)) return past.faulty.has(value.address);
    const is = known.get(value);
    if (is !== undefined) return is;
    known.set(value, false);
    const found = isOfDoubtfulAxis(axes, value.address) || value.inputs.some(isBadInput);
    known.set(value, found);
    return found;
  };
  const faulty = new Map(past?.faulty);
  const look = (address: string, value = values.get(address)): void => {
    if (value && isBad(value)) faulty.set(address, true);
    else faulty.delete(address);
  };
  if (others) for (const address of others) look(address as string);
  else
    values.forEach((value, address) => {
      look(address, value);
    });
  return { grounds, values, faulty };
}

const NONE: ReadonlyMap<string, true> = new Map();

function isOfDoubtfulAxis(axes: ReadonlySet<string>, address: string): boolean {
  return (
    axes.size > 0 &&
    address.startsWith('axes.') &&
    axes.has(address.slice('axes.'.length, address.indexOf('.', 'axes.'.length)))
  );
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
