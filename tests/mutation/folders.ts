/** A folder whose code is mutated, and the tests that are to notice. */
export interface Folder {
  readonly name: string;
  /** Tests that are about it, as folders or files; others may notice more, which only raises the score. */
  readonly tests: readonly string[];
}

export const FOLDERS: readonly Folder[] = [
  { name: 'server/core/units', tests: ['tests/core/units', 'tests/references/units.test.ts'] },
  { name: 'server/core/motion', tests: ['tests/core/motion', 'tests/references'] },
  {
    name: 'server/core/circuits',
    // Much of it is seen only in what is made of circuits, which the baselines of the examples and the findings hold.
    // Not keeping.test.ts: it solves sequences of edits for minutes, which every mutant that is left would do again.
    tests: [
      ...[
        'bounds',
        'breaks',
        'budget',
        'called',
        'conductors',
        'current-round',
        'current-way',
        'disjoint-sets',
      ].map((name) => `tests/core/circuits/${name}.test.ts`),
      ...['edits', 'faults', 'feeds', 'figures', 'followed', 'graphs', 'hops', 'joined', 'legs'].map(
        (name) => `tests/core/circuits/${name}.test.ts`,
      ),
      ...['idle', 'kinds', 'loads', 'loops', 'loose', 'nets', 'open-circuits', 'order', 'rails'].map(
        (name) => `tests/core/circuits/${name}.test.ts`,
      ),
      ...['readings', 'shorts', 'signal-kinds', 'signals', 'solver', 'spice', 'supplies', 'ties'].map(
        (name) => `tests/core/circuits/${name}.test.ts`,
      ),
      ...['together', 'touched', 'values', 'verdicts', 'ways'].map(
        (name) => `tests/core/circuits/${name}.test.ts`,
      ),
      'tests/core/features/signal-way.test.ts',
      'tests/references/circuits.test.ts',
      'tests/core/baselines',
      'tests/findings',
    ],
  },
  { name: 'server/core/findings', tests: ['tests/findings', 'tests/core/baselines', 'tests/mistakes'] },
];
