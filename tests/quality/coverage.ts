import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { table } from '../support/markdown.ts';
import { type Part, percent, readReport } from './part.ts';

interface Count {
  readonly total: number;
  readonly covered: number;
}
const KINDS = ['lines', 'branches', 'functions'] as const;
type Counts = Readonly<Record<(typeof KINDS)[number], Count>>;

/** Coverage of the core and the schemas by the unit tests, folder by folder. */
export const coverage: Part<Readonly<Record<string, Counts>>> = {
  name: 'coverage',
  title: 'Coverage',
  about: `Which share of the code the tests of the gate \`unit\` reach. That code was run does not say that a test would notice if
it did something else; the mutation score does.`,
  make: ['.project/test.mjs', 'unit'],
  read: () => {
    const files = Object.entries(readReport<Record<string, Counts>>('coverage/coverage-summary.json'));
    const folders = new Map<string, Counts>();
    for (const [file, counts] of files) {
      const folder = file === 'total' ? 'all' : folderOf(path.relative(ROOT, file));
      const sum = folders.get(folder);
      folders.set(folder, sum ? add(sum, counts) : pick(counts));
    }
    return Object.fromEntries([...folders].toSorted(([a], [b]) => (a < b ? -1 : 1)));
  },
  show: (folders) =>
    table(
      ['folder', ...KINDS],
      Object.entries(folders).map(([folder, counts]) => [
        folder === 'all' ? '**all**' : `\`${folder}\``,
        ...KINDS.map((kind) => percent(counts[kind].covered, counts[kind].total)),
      ]),
    ),
};

/** `server/core/units` for what is in it at any depth, `server/core` for the files beside those folders. */
function folderOf(file: string): string {
  const folder = path.dirname(file).split(path.sep);
  return folder.slice(0, folder[0] === 'server' ? 3 : 1).join('/');
}

const pick = (counts: Counts): Counts => byKind((kind) => counts[kind]);
const add = (a: Counts, b: Counts): Counts =>
  byKind((kind) => ({
    total: a[kind].total + b[kind].total,
    covered: a[kind].covered + b[kind].covered,
  }));

function byKind(count: (kind: (typeof KINDS)[number]) => Count): Counts {
  const of = (kind: (typeof KINDS)[number]): Count => ({
    total: count(kind).total,
    covered: count(kind).covered,
  });
  return { lines: of('lines'), branches: of('branches'), functions: of('functions') };
}
