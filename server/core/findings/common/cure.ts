import { analyse, type MachineAnalysis } from '../../analysis.ts';
import { createTrees, type Trees } from '../../model/trees.ts';
import type { Edit, Fix } from '../../problem.ts';
import { rangeOf } from '../../syntax/tree.ts';
import type { Found } from '../rule.ts';
import { openEndsOf } from '../wiring/open-ends.ts';
import { outputFights } from '../wiring/output-fights.ts';
import { railConflicts } from '../wiring/rail-conflicts.ts';
import { stayingOn, unnoticedBreaks } from './broken-wires.ts';
import { diagnose } from './diagnose.ts';
import { findOverloads } from './overloads.ts';

/** How many changes are tried for one finding. */
const MOST_TRIES = 8;

const treesOf = new WeakMap<MachineAnalysis, Trees>();

/**
 * Puts off the search for cures until somebody asks for the fixes, since each of them is solved again.
 * @param propose the changes that may cure it, the likeliest first
 * @param isCured whether the machine with the change no longer has the mistake
 */
export function withCures(
  analysis: MachineAnalysis,
  found: Omit<Found, 'fixes'>,
  propose: () => readonly (Fix | undefined)[],
  isCured: (after: MachineAnalysis) => boolean,
): Found {
  let fixes: readonly Fix[] | undefined;
  return {
    ...found,
    get fixes() {
      fixes ??= propose()
        .filter((fix) => fix !== undefined)
        .slice(0, MOST_TRIES)
        .filter((fix) => cures(analysis, fix.edits, isCured));
      return fixes;
    },
  };
}

/**
 * Whether a change of the text takes a mistake away and brings none that was not there: the changed text is analysed,
 * and all of its circuits are solved again.
 */
export function cures(
  analysis: MachineAnalysis,
  edits: readonly Edit[],
  isCured: (after: MachineAnalysis) => boolean,
): boolean {
  const text = applyEdits(analysis, edits);
  if (text === undefined) return false;
  let trees = treesOf.get(analysis);
  if (!trees) {
    trees = createTrees();
    treesOf.set(analysis, trees);
  }
  const after = analyse(analysis.file, text, analysis.world, trees);
  if (after.kind !== 'machine' || after.problems.length > analysis.problems.length || !isCured(after))
    return false;
  const before = troublesIn(analysis);
  return [...troublesIn(after)].every((trouble) => before.has(trouble));
}

/** What is wrong with the circuits of a machine, each mistake as one word. Hints are left out. */
function troublesIn(analysis: MachineAnalysis): Set<string> {
  const inputs = diagnose(analysis).filter(({ kind }) => kind !== 'noise-margin');
  return new Set([
    ...inputs.map(({ kind, input: { at } }) => `${kind} ${at.part.name}.${at.circuit.name}`),
    ...[...unnoticedBreaks(analysis), ...stayingOn(analysis)].map(
      ({ input: { at } }) => `broken ${at.part.name}.${at.circuit.name}`,
    ),
    ...openNames(analysis),
    ...railConflicts(analysis).map(
      ({ kind, supply: { part, circuit } }) => `${kind} ${part.name}.${circuit.name}`,
    ),
    ...overloadedSupplies(analysis),
    ...outputFights(analysis).flatMap(({ outputs }) =>
      outputs.map(({ at }) => `fight ${at.part.name}.${at.circuit.name}`),
    ),
    ...findOverloads(analysis).map(({ element: { at } }) => `overload ${at.part.name}.${at.circuit.name}`),
  ]);
}

function overloadedSupplies({ values }: MachineAnalysis): string[] {
  return [...values.byAddress.values()].flatMap(({ address, si }) =>
    address.endsWith('.load-share') && si > 1 ? [`overload ${address}`] : [],
  );
}

function openNames(analysis: MachineAnalysis): string[] {
  const { noReturns, unconnected } = openEndsOf(analysis);
  const open = noReturns.flatMap(({ open: { legs } }) => legs.flatMap(({ at }) => at ?? []));
  return [...open, ...unconnected].map(({ part, circuit }) => `open ${part.name}.${circuit.name}`);
}

/** The text with some changes made; undefined where they overlap or are of another version. */
function applyEdits({ tree }: MachineAnalysis, edits: readonly Edit[]): string | undefined {
  const placed = edits.map(({ at, text }) => ({ range: rangeOf(tree, at), text }));
  placed.sort((a, b) => (b.range?.from ?? 0) - (a.range?.from ?? 0));
  let [text, last] = [tree.text, tree.text.length];
  for (const edit of placed) {
    if (!edit.range || edit.range.to > last) return undefined;
    text = text.slice(0, edit.range.from) + edit.text + text.slice(edit.range.to);
    last = edit.range.from;
  }
  return text;
}
