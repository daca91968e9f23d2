import { PROMISES, SIZES } from '../bench/promises.ts';
import type { BenchRow } from '../bench/row.ts';
import { blocks, table } from '../support/markdown.ts';
import { figure, type Part, readReport } from './part.ts';

/** How quick the built server is, and how much memory it takes, against what is promised. */
export const speed: Part<readonly BenchRow[]> = {
  name: 'speed',
  title: 'Speed and memory',
  about: `An editor's session with the built server over stdio, at three sizes of text (\`npm run bench\`). Edits are of several
kinds, from a comment to the name of a part that much hangs on, and each figure says what was measured, what is promised
for two cores that do nothing else, and whether that is met. The share is that of the bare \`yaml\` parse of the whole text
in the same run, which a busy machine slows as well. Starts are those after the first, with what Node compiled before.`,
  make: ['tests/bench/bench.ts'],
  read: () => readReport('bench.json'),
  show: (rows) =>
    blocks(
      table(['the server', ...SIZES.map((lines) => `${figure(lines, 0)} lines`)], rowsOfPromises(rows)),
      rows
        .filter(({ promise }) => promise === 'edit')
        .map(({ lines, detail }) => `- ${figure(lines, 0)} lines, medians in ms by kind of edit: ${detail}`)
        .join('\n'),
      'Parts of that work, and what is done beside it:',
      table(['part', 'lines', 'measured', 'budget', ''], rowsOfParts(rows)),
    ),
};

function rowsOfPromises(rows: readonly BenchRow[]): readonly (readonly string[])[] {
  return Object.entries(PROMISES).map(([promise, { what, unit }]) => [
    `${what}, ${unit}`,
    ...SIZES.map((size) => {
      const row = rows.find((one) => one.promise === promise && one.lines === size);
      return row ? `${figureOf(row)} of ${row.budget}: ${verdictOf(row)}` : 'not measured';
    }),
  ]);
}

function rowsOfParts(rows: readonly BenchRow[]): readonly (readonly string[])[] {
  return rows
    .filter(({ promise }) => promise === undefined)
    .map((row) => [
      row.what,
      row.lines === undefined ? '–' : figure(row.lines, 0),
      `${figureOf(row)} ${row.unit}`,
      String(row.budget),
      verdictOf(row),
    ]);
}

/** Small figures need more digits to be compared with their budgets. */
const figureOf = ({ value, budget }: BenchRow): string =>
  figure(value, budget < 1 ? 2 : budget < 100 ? 1 : 0);

const verdictOf = ({ value, budget }: BenchRow): string =>
  value !== null && value <= budget ? 'met' : '**not met**';
