/** A change of the code that makes no difference to anybody, and why. */
export interface Equivalent {
  readonly file: string;
  /** The code that is changed, as it stands, and what it is changed to. */
  readonly original: string;
  readonly replacement: string;
  readonly because: string;
}

const EQUIVALENT: readonly Equivalent[] = [
  {
    file: 'server/core/units/guess.ts',
    original: 'plain.length > LONGEST_GUESS',
    replacement: 'plain.length >= LONGEST_GUESS',
    because: 'the bound only spares work on long texts; no unit and no slip of one is nearly as long',
  },
  {
    file: 'server/core/motion/wire.ts',
    original: 'Math.abs(size / (listed * 1e-6) - 1) < 1e-6',
    replacement: 'Math.abs(size / (listed * 1e-6) - 1) <= 1e-6',
    because: 'the bound only takes up rounding, a thousand million times smaller; no size stands on it',
  },
  {
    file: 'server/core/motion/winding.ts',
    original: 'share <= 1',
    replacement: 'true',
    because: 'the logarithm of a number below zero, which a share above 1 leads to, is not a number either',
  },
  {
    file: 'server/core/circuits/disjoint-sets.ts',
    original: 'before.numbering.names.length < MOST_NAMES',
    replacement: 'before.numbering.names.length <= MOST_NAMES',
    because:
      'the bound only spares memory; what is joined is the same whatever is remembered of earlier versions',
  },
  {
    file: 'server/core/circuits/disjoint-sets.ts',
    original: 'before.numbering.names.length < MOST_NAMES',
    replacement: 'true',
    because:
      'the bound only spares memory; what is joined is the same whatever is remembered of earlier versions',
  },
  {
    file: 'server/core/circuits/disjoint-sets.ts',
    original: 'id >= this.parents.length',
    replacement: 'true',
    because: 'room that is made anew has in it what the last one had',
  },
  {
    file: 'server/core/circuits/disjoint-sets.ts',
    original: 'this.parents[up] ?? up',
    replacement: 'this.parents[up] && up',
    because: 'the path is only not halved; where it leads to number 0, it is led there as before',
  },
  {
    file: 'server/core/circuits/loops/region.ts',
    original: '-1',
    replacement: '+1',
    because:
      'a terminal without a number is new, so it is the end of a link that is new, which is found by itself',
  },
  {
    file: 'server/core/circuits/loops/region.ts',
    original: 'now.netOf[terminal] ?? -1',
    replacement: 'now.netOf[terminal] && -1',
    because:
      'terminals are only looked at again; one that is new is the end of a link that is new, which is found by itself',
  },
  {
    file: 'server/core/circuits/loops/region.ts',
    original: 'before.netOf[terminal] ?? -1',
    replacement: 'before.netOf[terminal] && -1',
    because: 'terminals are only looked at again',
  },
  {
    file: 'server/core/circuits/solve/board.ts',
    original: `{
  return (
    supplies === before ||
    (supplies.length === before.length &&
      supplies.every(
        ({ plus, minus }, place) => plus === before[place]?.plus && minus === before[place].minus,
      ))
  );
}`,
    replacement: '{}',
    because: 'terminals are only joined anew, to the same nodes',
  },
  {
    file: 'server/core/circuits/solve/board.ts',
    original: 'supplies === before',
    replacement: 'false',
    because: 'the ends of the same supplies are only compared one by one',
  },
  {
    file: 'server/core/circuits/solve/board.ts',
    original: 'minus === before[place].minus',
    replacement: 'minus !== before[place].minus',
    because: 'terminals are only joined anew, to the same nodes',
  },
  {
    file: 'server/core/circuits/solve/breaks.ts',
    original: 'sides[1 - index]?.found',
    replacement: 'sides[1 - index].found',
    because: 'there are two sides',
  },
  {
    file: 'server/core/circuits/solve/changes.ts',
    original: 'true',
    replacement: 'false',
    because: 'what is taken for laid otherwise is only looked at again',
  },
  {
    file: 'server/core/circuits/solve/changes.ts',
    original: 'is?.link',
    replacement: 'is.link',
    because: 'a conductor stands at every place that is looked at',
  },
  {
    file: 'server/core/circuits/solve/changes.ts',
    original: 'was?.link?.cable !== is?.link?.cable',
    replacement: 'true',
    because: 'what is taken for laid otherwise is only looked at again',
  },
  {
    file: 'server/core/circuits/solve/conductors.ts',
    original: 'place < all.length',
    replacement: 'place <= all.length',
    because: 'behind the last conductor there is none',
  },
  {
    file: 'server/core/circuits/solve/grouping.ts',
    original: `{
      const group = groupAt(place);
      return group !== undefined && hasGroup(before, group);
    }`,
    replacement: '{}',
    because: 'which relays are held is only found again',
  },
  {
    file: 'server/core/circuits/solve/solver.ts',
    original: 'round < QUICK_ROUNDS',
    replacement: 'round <= QUICK_ROUNDS',
    because: 'a round more or less of plain flips ends in the same state, of which there is one alone',
  },
  {
    file: 'server/core/circuits/ways.ts',
    original: '[]',
    replacement: '["Stryker was here"]',
    because: 'the list of contacts is counted from its length, so what it begins with is never looked at',
  },
  {
    file: 'server/core/circuits/nets.ts',
    original: 'first !== undefined',
    replacement: 'true',
    because: 'where there are others there is a first',
  },
  {
    file: 'server/core/circuits/nets.ts',
    original: 'changed && (() => changed)',
    replacement: 'false',
    because: 'without knowing what changed, whatever was read is only compared again',
  },
  {
    file: 'server/core/circuits/solve/changes.ts',
    original: 'before.nodeOf !== board.nodeOf',
    replacement: 'true',
    because: 'on the same nodes the same conductors have a resistance, so there is only more to compare',
  },
  {
    file: 'server/core/circuits/loops/meant-legs.ts',
    original: "at?.circuit.kind === 'changeover'",
    replacement: 'true',
    because: 'who works is asked of changeover contacts alone',
  },
  {
    file: 'server/core/circuits/sets.ts',
    original: 'node < count',
    replacement: 'node <= count',
    because: 'what is written behind the end of an array of numbers is dropped',
  },
  {
    file: 'server/core/circuits/loops/sites.ts',
    original: 'at[end - first]?.push',
    replacement: 'at[end - first].push',
    because: 'a circuit ends on terminals of its own part, and all of these have a list',
  },
  {
    file: 'server/core/circuits/solve/reading.ts',
    original: "kind === 'resistor' || kind === 'source'",
    replacement: 'false',
    because:
      'what conducts between the ends of an input ties both or neither, so where one is tied alone there is no branch to ask',
  },
  {
    file: 'server/core/circuits/solve/relays.ts',
    original: 'at.part.sheet?.circuits',
    replacement: 'at.part.sheet.circuits',
    because: 'what has a circuit has a sheet, which says so',
  },
  {
    file: 'server/core/circuits/solve/relays.ts',
    original: 'solutions.set(group, solution);',
    replacement: ';',
    because: 'a circuit with several coils is only solved again for each of them',
  },
  {
    file: 'server/core/circuits/solve/solver.ts',
    original: "kind === 'join'",
    replacement: 'false',
    because: 'no current of its own is known of a join yet, so nothing is added for it',
  },
  {
    file: 'server/core/circuits/solve/solver.ts',
    original: 'count < WORTH_ORDERING',
    replacement: 'false',
    because: 'the same is solved in any order of the unknowns; small networks are only ordered needlessly',
  },
  {
    file: 'server/core/circuits/solve/solver.ts',
    original: '(degree[i] ?? 0) - (degree[j] ?? 0)',
    replacement: '(degree[i] ?? 0) + (degree[j] ?? 0)',
    because: 'the same is solved in any order of the unknowns; this one only keeps the matrix sparse',
  },
  {
    file: 'server/core/circuits/solve/way.ts',
    original: '!came || !conductor',
    replacement: 'false',
    because:
      'the terminals of one node are joined by conductors without resistance, so there is a way between any two',
  },
  {
    file: 'server/core/findings/common/held-back.ts',
    original: 'is !== undefined',
    replacement: 'false',
    because: 'what was found of a value is only found again',
  },
  {
    file: 'server/core/findings/common/sensor-sheets.ts',
    original: '!sheet',
    replacement: 'true',
    because: 'a sheet of the library that was read is only read again',
  },
  {
    file: 'server/core/findings/level/differing-spans.ts',
    original: 'Math.abs(span.least.value - least) <= slack',
    replacement: 'Math.abs(span.least.value - least) < slack',
    because: 'the bound only takes up rounding; no two spans that anybody writes differ by just a thousandth',
  },
  {
    file: 'server/core/findings/record/correction/rule.ts',
    original: '!asked || !seen?.at || !within || !keyed || !wanted || !now',
    replacement: '(!asked || !seen?.at || !within || !keyed || !wanted) && !now',
    because:
      'where a correction was worked out there are its measurement, the setting and what that should be',
  },
  {
    file: 'server/core/findings/setting/rounding-drift/rule.ts',
    original: 'Math.abs(now.value / wanted.si - 1) > 1e-9',
    replacement: 'Math.abs(now.value / wanted.si - 1) >= 1e-9',
    because: 'the bound only takes up rounding; no setting differs by just a thousand-millionth',
  },
  {
    file: 'server/core/findings/shape/missing-key/rule.ts',
    original: '!at || !end',
    replacement: 'false',
    because: 'every text has a first and a last place, also an empty one',
  },
  {
    file: 'server/core/findings/wire/conductor-roles.ts',
    original: '/^N$/',
    replacement: '/^N/',
    because: 'of the terminals of the mains only N begins so',
  },
];

/** Whether a change is known to make no difference. */
export function isEquivalent(mutant: Pick<Equivalent, 'file' | 'original' | 'replacement'>): boolean {
  return EQUIVALENT.some(
    ({ file, original, replacement }) =>
      file === mutant.file && original === mutant.original && replacement === mutant.replacement,
  );
}
