import { analyse, type SheetAnalysis } from '../analysis.ts';
import { titleOf } from '../features/markdown.ts';
import type { NotComputed } from '../features/not-computed.ts';
import { joinWords } from '../findings/common/words.ts';
import { findAll } from '../findings/find.ts';
import { RULES } from '../findings/list.ts';
import { groupBy } from '../group.ts';
import { said, say } from '../language/say.ts';
import { createTrees, type Trees } from '../model/trees.ts';
import { rangeOf } from '../syntax/tree.ts';
import type { World } from '../world.ts';
import { benchFor, checksOf, missingCircuits } from './bench.ts';
import { TRIED } from './draft.ts';
import { fillGaps, type Gap, listGaps } from './gaps.ts';

/** What a sheet lacks, found by trying the part on a bench. */
export interface SheetLacks {
  /** How many values are computed on its bench. */
  readonly computed: number;
  readonly lacks: readonly NotComputed[];
}

/**
 * What is computed and checked with a part, and what cannot be for want of a figure on its sheet: the part is tried on
 * its bench as it is, with all that it could say, and with all but one thing. What is lost by that one thing needs it.
 * Undefined for a class of part from which nothing is computed.
 */
export function findLacks(sheet: SheetAnalysis): SheetLacks | undefined {
  const bench = createBench(sheet);
  if (!bench) return undefined;
  const now = bench.try(sheet.tree.text);
  const gaps = listGaps(sheet);
  const full = bench.try(fillGaps(sheet.tree, gaps));
  const more = [...full.outcomes].filter((outcome) => !now.outcomes.has(outcome));
  const byNeed = new Map<string, string[]>();
  for (const [outcome, words] of more.length > 0 ? whatEachNeeds(more, gaps, bench, sheet) : [])
    byNeed.set(words, [...new Set([...(byNeed.get(words) ?? []), sayOutcome(outcome)])]);
  return {
    computed: now.computed,
    lacks: [
      ...missingCircuits(sheet.sheet).map(({ words, about }) => ({
        needs: say`a circuit that is, or does, ${joinWords(words)}`,
        values: [said(about)],
      })),
      ...[...byNeed].map(([words, values]) => ({ needs: words, values })),
    ],
  };
}

/** What each outcome needs, in words. */
function whatEachNeeds(
  more: readonly string[],
  gaps: readonly Gap[],
  bench: Bench,
  { tree }: SheetAnalysis,
): Map<string, string> {
  const outcomesWith = (some: readonly Gap[]) => bench.try(fillGaps(tree, some)).outcomes;
  const kinds = [...groupBy(gaps, ({ kind }) => kind).values()];
  // Whole kinds first: a controller has a hundred gaps, and most of them are of no account.
  const counting = kinds.flatMap((same) => {
    const outcomes = outcomesWith(withoutGaps(gaps, same));
    return more.some((outcome) => !outcomes.has(outcome)) ? same : [];
  });
  const lost = counting.map((gap) => ({ gap, outcomes: outcomesWith(withoutGaps(gaps, [gap])) }));
  const needs = new Map<string, string>();
  for (const outcome of more) {
    const necessary = lost.flatMap(({ gap, outcomes }) => (outcomes.has(outcome) ? [] : [gap]));
    if (necessary.length > 0) needs.set(outcome, sayGaps(necessary, 'and'));
  }
  // What any one of several things would do is lost by none of them alone.
  const others = more.filter((outcome) => !needs.has(outcome));
  const alone = others.length > 0 ? kinds.map((same) => ({ same, outcomes: outcomesWith(same) })) : [];
  for (const outcome of others) {
    const enough = alone.flatMap(({ same, outcomes }) => (outcomes.has(outcome) ? same : []));
    if (enough.length > 0) needs.set(outcome, sayGaps(enough, 'or'));
  }
  return needs;
}

const withoutGaps = (gaps: readonly Gap[], left: readonly Gap[]): Gap[] =>
  gaps.filter((gap) => !left.includes(gap));

interface Outcome {
  /** Addresses of values, and the findings that the bench provokes, with their places. */
  readonly outcomes: ReadonlySet<string>;
  readonly computed: number;
}

interface Bench {
  readonly try: (sheetText: string) => Outcome;
}

function createBench({ file, sheet, world }: SheetAnalysis): Bench | undefined {
  const benchFile = world.resolve(file, '.bench.machine.yaml');
  const text = benchFor(sheet, world.pathTo(benchFile, file) ?? file);
  if (text === undefined) return undefined;
  const checks = checksOf(sheet);
  const trees: Trees = createTrees();
  return {
    try: (sheetText) => {
      const within: World = {
        ...world,
        file: (id) => (id === file ? { kind: 'text', text: sheetText } : world.file(id)),
      };
      const analysis = analyse(benchFile, text, within, trees);
      const { byAddress } = analysis.values;
      const found = checks.size === 0 ? [] : findAll(analysis).filter(({ code }) => checks.has(code));
      // The same finding at another place of the bench is another outcome.
      const codes = found.map(({ code, at }) => `${code} ${rangeOf(analysis.tree, at)?.from}`);
      return {
        outcomes: new Set([...[...byAddress.keys()].filter((at) => !isOwnSetting(at)), ...codes]),
        computed: byAddress.size,
      };
    },
  };
}

/** What a setting of the part stands at is no outcome: it is there when the setting is. */
const isOwnSetting = (address: string): boolean =>
  address.startsWith(`settings.${TRIED}.`) && address.endsWith('.now');

/** `hold of x-direction and y-direction`; empty for nothing. */
function sayGaps(gaps: readonly Gap[], joint: 'and' | 'or'): string {
  const words = [...groupBy(gaps, ({ what }) => what)].map(([what, all]) => {
    const circuits = all.flatMap(({ circuit }) => circuit ?? []);
    return circuits.length === 0 ? what : say`${what} of ${joinWords(circuits, 'and')}`;
  });
  return joinWords(words, joint);
}

/** A value by its title, a check by what it would notice. */
function sayOutcome(outcome: string): string {
  const rule = RULES.find(({ code }) => code === outcome.split(' ')[0]);
  return rule ? say`whether ${lowerFirst(said(rule.title))} (${rule.code})` : titleOf(outcome);
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
