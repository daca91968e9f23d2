import path from 'node:path';
import { table } from '../support/markdown.ts';
import { type Part, percent, readReport } from './part.ts';

interface Count {
  readonly total: number;
  readonly covered: number;
}
const KINDS = ['lines', 'branches', 'functions'] as const;
type Counts = Readonly<Record<(typeof KINDS)[number], Count>>;

/** Coverage of the core, of the schemas and of what runs them in the tests' own process, folder by folder. */
export const coverage: Part<Readonly<Record<string, Counts>>> = {
  name: 'coverage',
  title: 'Coverage',
  about: `Which share of the code the tests of the gate \`unit\` reach. That code was run does not say that a test would notice if
it did something else; the mutation score does. What is tested as it was built, protocol and client, is not counted.`,
  make: ['.project/test.mjs', 'unit'],
  read: () => addUpFolders(readReport<Record<string, Counts>>('coverage/coverage-summary.json')),
  show: (folders) =>
    table(
      ['folder', ...KINDS],
      Object.entries(folders).map(([folder, counts]) => [
        folder === 'all' ? '**all**' : `\`${folder}\``,
        ...KINDS.map((kind) => percent(counts[kind].covered, counts[kind].total)),
      ]),
    ),
};

/**
 * The counts of a report, by folders and of all.
 * @param report by the full paths of the files, as they are where the tests ran; that may be another clone of the project
 */
export function addUpFolders(report: Readonly<Record<string, Counts>>): Readonly<Record<string, Counts>> {
  const root = findRoot(Object.keys(report));
  const folders = new Map<string, Counts>();
  for (const [file, counts] of Object.entries(report)) {
    const folder = file === 'total' ? 'all' : folderOf(file.slice(root.length));
    const sum = folders.get(folder);
    folders.set(folder, sum ? add(sum, counts) : pick(counts));
  }
  return Object.fromEntries([...folders].toSorted(([a], [b]) => (a < b ? -1 : 1)));
}

/** The folder of the project in which the tests ran, told by a file that is in every report. */
function findRoot(files: readonly string[]): string {
  const known = path.join('server', 'core', 'fettle.ts');
  const file = files.find((each) => each.endsWith(known));
  if (file === undefined) throw new Error(`the report on coverage has no ${known}`);
  return file.slice(0, -known.length);
}

/** `server/core/units` for what is in it at any depth, `server/core` for the files beside those folders. */
function folderOf(file: string): string {
  const folder = path.dirname(file).split(path.sep);
  const depth = folder[0] !== 'server' ? 1 : folder[1] === 'core' ? 3 : 2;
  return folder.slice(0, depth).join('/');
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
