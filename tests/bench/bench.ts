/**
 * Measures how long an edit takes until its findings are there, against the `yaml` parse of the same text in the same
 * run: through the built server over stdio, and in this process. Then hover and completion on what is known,
 * the other requests of a cursor while somebody types, and the start. Prints a table, writes .cache/bench.json, and fails only far beyond the budget.
 * Usage: bench.ts [--short]
 */
import fs from 'node:fs';
import path from 'node:path';
import { ROOT, startClient } from '../support/lsp-client.ts';
import { measureCircuits } from './circuits.ts';
import { measureInProcess, measureOtherAxes, measureValues } from './in-process.ts';
import { makeMachine } from './machines.ts';
import { checkMany } from './many.ts';
import { medianOf, type Timings } from './measure.ts';
import { measureServer } from './over-stdio.ts';
import { measureRequests } from './requests.ts';

const short = process.argv.includes('--short');
const rounds = short ? 15 : 60;
const sizes = [300, 3000];

/** The budget is what the project promises; the limit is what a busy machine still must keep. */
const BUDGETS = {
  edit: { budget: 2, limit: 6, unit: '× parse' },
  values: { budget: 3, limit: 30, unit: 'ms / 300 lines' },
  circuits: { budget: 10, limit: 100, unit: 'ms / 300 lines' },
  touched: { budget: 5, limit: 60, unit: '% of all' },
  otherAxes: { budget: 0, limit: 0, unit: '% anew' },
  hover: { budget: 5, limit: 50, unit: 'ms' },
  completion: { budget: 5, limit: 50, unit: 'ms' },
  request: { budget: 16, limit: 100, unit: 'ms (95 %)' },
  start: { budget: 250, limit: 1500, unit: 'ms' },
  many: { budget: 60, limit: 400, unit: 'ms CPU / file' },
  growth: { budget: 1.3, limit: 1.6, unit: '× the memory' },
} as const;
type Measure = keyof typeof BUDGETS;

interface Row {
  readonly what: string;
  readonly lines?: number;
  readonly value: number;
  /** What must be kept, where it is another than the measure's. */
  readonly limit?: number;
  readonly measure: Measure;
  readonly detail: string;
}

const rows: Row[] = [];
for (const size of sizes) {
  const text = makeMachine(size);
  const lines = text.split('\n').length;
  const add = (what: string, measure: Measure, value: number, detail: string) =>
    rows.push({ what, measure, value, detail, lines });
  const report = (how: string, { edit, parse, hover, completion, findings }: Timings) => {
    const detail = `${medianOf(edit).toFixed(2)} ms against ${medianOf(parse).toFixed(2)} ms, ${findings} findings`;
    add(`edit to findings ${how}`, 'edit', medianOf(edit) / medianOf(parse), detail);
    add(`hover ${how}`, 'hover', medianOf(hover), '');
    add(`completion ${how}`, 'completion', medianOf(completion), '');
  };
  report('in process', measureInProcess(text, rounds));
  const measured = await measureServer(text, rounds);
  report('over stdio', measured);
  const { parse } = measured;
  for (const { method, slowest, usual, said } of await measureRequests(text, Math.max(rounds, 40)))
    rows.push({
      what: method.replace(/^\w+\//, ''),
      measure: 'request',
      value: said ? slowest : Number.NaN,
      detail: `${usual.toFixed(2)} ms usually${said ? '' : ', no answer at all'}`,
      lines,
      // The slowest of many tells how busy the machine is as much as how quick the server is; the parse tells the former.
      limit: Math.max(BUDGETS.request.limit, 3 * medianOf(parse)),
    });
  const values = medianOf(measureValues(text, rounds));
  add('values after an edit', 'values', (values * 300) / lines, `${values.toFixed(2)} ms`);
  add('values of the other axes', 'otherAxes', Math.max(...measureOtherAxes(text, rounds)), '');
}
for (const size of [...sizes, 10_000]) {
  const text = makeMachine(size);
  const lines = text.split('\n').length;
  const { anew, typed, rejoined } = measureCircuits(text, rounds);
  const add = (what: string, measure: Measure, value: number, detail: string) =>
    rows.push({ what, measure, value, detail, lines });
  add('all circuits, states, faults', 'circuits', (anew * 300) / lines, `${anew.toFixed(2)} ms`);
  add('circuits after a length', 'touched', (typed / anew) * 100, `${typed.toFixed(2)} ms`);
  add('circuits after a link', 'touched', (rejoined / anew) * 100, `${rejoined.toFixed(2)} ms`);
}
rows.push({
  what: 'start to initialize answer',
  measure: 'start',
  value: medianOf(await measureStarts(short ? 3 : 9)),
  detail: '',
});

// Ten times the files must not need more memory. Fewer than this would not have filled the heap of each thread.
const few = await checkMany(100);
const many = await checkMany(short ? 200 : 1000);
rows.push(
  {
    what: `check of ${many.files} files`,
    measure: 'many',
    lines: many.lines,
    value: ((many.processor ?? Number.NaN) * 1000) / many.files,
    detail: `${(many.files / many.seconds).toFixed(1)} files / s on this machine as busy as it is`,
  },
  {
    what: `memory against ${few.files} files`,
    measure: 'growth',
    value: (many.peak ?? Number.NaN) / (few.peak ?? Number.NaN),
    detail: `${many.peak?.toFixed(0)} MB at most, against ${few.peak?.toFixed(0)} MB`,
  },
);

const over = rows.filter(({ measure, value, limit }) => !(value <= (limit ?? BUDGETS[measure].limit)));
print();
fs.mkdirSync(path.join(ROOT, '.cache'), { recursive: true });
fs.writeFileSync(path.join(ROOT, '.cache/bench.json'), JSON.stringify(rows, null, 2));
for (const { what, lines } of over)
  console.log(`Far beyond the budget: ${what}${lines ? ` at ${lines} lines` : ''}`);
process.exitCode = over.length > 0 ? 1 : 0;

async function measureStarts(times: number): Promise<readonly number[]> {
  const starts: number[] = [];
  for (let time = 0; time < times; time++) {
    const from = performance.now();
    const client = await startClient();
    starts.push(performance.now() - from);
    await client.stop();
  }
  return starts;
}

function print(): void {
  for (const { what, lines, value, measure, detail } of rows) {
    const { budget, unit } = BUDGETS[measure];
    const size = lines === undefined ? '' : `${lines} lines`;
    const figure = `${value.toFixed(2)} ${unit}`;
    const verdict = value <= budget ? 'within' : 'OVER';
    console.log(
      `${what.padEnd(28)} ${size.padEnd(11)} ${figure.padStart(16)}  ${verdict} ${budget} ${unit}  ${detail}`.trimEnd(),
    );
  }
}
