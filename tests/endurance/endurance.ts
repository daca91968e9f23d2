/**
 * Types for long at the built server and tells what its heap holds: after 10,000 edits of 3,000 lines it may be a tenth
 * more than after 100, and after 200 files that were opened and closed a tenth more than after 20. Writes .cache/endurance.json.
 * Usage: endurance.ts [--short], which is 1,000 edits and fails from a quarter on.
 */
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { measureEdits, measureFiles } from './heap.ts';

const short = process.argv.includes('--short');
/** After 1,000 edits a heap still sways by more than it grows; the short form is there to see what piles up. */
const MOST_GROWTH = short ? 1.25 : 1.1;
const marks = short ? [100, 1000] : [100, 1000, 5000, 10_000];
const files = [20, 200];
const megabytes = (bytes = Number.NaN) => (bytes / 1e6).toFixed(1);

const edits = await measureEdits(3000, marks, (edit) => console.log(`  ${edit} edits`));
const opened = await measureFiles(files);
const growth = (heaps: readonly number[]) => (heaps.at(-1) ?? Number.NaN) / (heaps[0] ?? Number.NaN);
for (const [index, mark] of marks.entries())
  console.log(`after ${mark} edits of 3000 lines: ${megabytes(edits[index])} MB`);
for (const [index, mark] of files.entries())
  console.log(`after ${mark} files opened and closed: ${megabytes(opened[index])} MB`);
fs.mkdirSync(path.join(ROOT, '.cache'), { recursive: true });
fs.writeFileSync(
  path.join(ROOT, '.cache/endurance.json'),
  `${JSON.stringify({ marks, edits, files, opened }, null, 2)}\n`,
);
const over = [edits, opened].some((heaps) => !(growth(heaps) <= MOST_GROWTH));
if (over)
  console.log(
    `Grown by more than ${Math.round((MOST_GROWTH - 1) * 100)} %: ${growth(edits).toFixed(2)} and ${growth(opened).toFixed(2)} times.`,
  );
process.exitCode = over ? 1 : 0;
