/**
 * Measures what the project promises of the built server over stdio (promises.ts): edits until their findings are there,
 * also against the `yaml` parse of the same text in the same run, questions right after an edit, the start, bursts of keys
 * and memory. Then the same edit in this process, the other requests of a cursor while somebody types, values and circuits
 * alone, the wiring drawing, and the check of many files. Prints a table, writes .cache/bench.json, and fails only far
 * beyond what was measured before.
 * Usage: bench.ts [--short]
 */
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { measureCircuits } from './circuits.ts';
import { measureDrawings } from './drawing.ts';
import { measureInProcess, measureOtherAxes, measureValues } from './in-process.ts';
import { makeMachine } from './machines.ts';
import { checkMany } from './many.ts';
import { medianOf, percentileOf } from './measure.ts';
import { PROMISES, type Promised, SIZES, TOLERANCE } from './promises.ts';
import { measureRequests } from './requests.ts';
import type { BenchRow } from './row.ts';
import { measureSession, measureStarts } from './session.ts';

const short = process.argv.includes('--short');
const rounds = short ? 15 : 60;
const sessionRounds = short ? { edits: 2, bursts: 3 } : { edits: 20, bursts: 9 };

/** The budget is what is wanted of the parts; the limit is what a busy machine still must keep. */
const BUDGETS = {
  inProcess: { budget: 2, limit: 6, unit: '× parse' },
  values: { budget: 3, limit: 30, unit: 'ms / 300 lines' },
  circuits: { budget: 10, limit: 100, unit: 'ms / 300 lines' },
  touched: { budget: 5, limit: 60, unit: '% of all' },
  otherAxes: { budget: 0, limit: 0, unit: '% anew' },
  known: { budget: 5, limit: 50, unit: 'ms' },
  request: { budget: 16, limit: 100, unit: 'ms (95 %)' },
  drawing: { budget: 1, limit: 4, unit: '× a link of the examples' },
  many: { budget: 60, limit: 400, unit: 'ms CPU / file' },
  growth: { budget: 1.3, limit: 1.6, unit: '× the memory' },
} as const;

const rows: BenchRow[] = [];
const add = (row: BenchRow): void => {
  rows.push(row);
  console.log(lineOf(row));
};

for (const [index, size] of SIZES.entries()) {
  const addPromised = (promise: keyof typeof PROMISES, value: number, detail = '') => {
    const { what, unit, budgets, baseline }: Promised = PROMISES[promise];
    const budget = budgets[index] ?? Number.NaN;
    const held = baseline?.[index];
    const limit = held === undefined ? {} : { limit: TOLERANCE * held };
    add({ promise, what, lines: size, value, unit, budget, ...limit, detail });
  };
  const text = makeMachine(size);
  const { edits, parse, hover, completion, burst, peak, findings } = await measureSession(
    text,
    sessionRounds,
  );
  const all = [...edits.values()].flat();
  const kinds = [...edits].map(([kind, times]) => `${kind} ${medianOf(times).toFixed(1)}`).join(', ');
  addPromised('edit', medianOf(all), `${kinds}; ${findings} findings`);
  addPromised('slowEdit', percentileOf(all, 95));
  addPromised('share', medianOf(all) / medianOf(parse), `the parse takes ${medianOf(parse).toFixed(1)} ms`);
  addPromised('hover', medianOf(hover));
  addPromised('completion', medianOf(completion));
  const starts = await measureStarts(text, short ? 3 : 9);
  addPromised('start', medianOf(starts.answer));
  addPromised('firstFindings', medianOf(starts.findings));
  addPromised('burst', medianOf(burst));
  addPromised('peak', peak ?? Number.NaN);
}

function addPart(
  measure: keyof typeof BUDGETS,
  row: Pick<BenchRow, 'what' | 'value'> & Partial<BenchRow>,
): void {
  add({ ...BUDGETS[measure], detail: '', ...row });
}

for (const lines of [300, 3000]) {
  const text = makeMachine(lines);
  const { edit, parse, hover, completion, findings } = measureInProcess(text, rounds);
  addPart('inProcess', {
    what: 'edit to findings in process',
    lines,
    value: medianOf(edit) / medianOf(parse),
    detail: `${medianOf(edit).toFixed(2)} ms against ${medianOf(parse).toFixed(2)} ms, ${findings} findings`,
  });
  addPart('known', { what: 'hover in process', lines, value: medianOf(hover) });
  addPart('known', { what: 'completion in process', lines, value: medianOf(completion) });
  for (const { method, slowest, usual, said } of await measureRequests(text, Math.max(rounds, 40)))
    addPart('request', {
      what: method.replace(/^\w+\//, ''),
      lines,
      value: said ? slowest : Number.NaN,
      // The slowest of many tells how busy the machine is as much as how quick the server is; the parse tells the former.
      limit: Math.max(BUDGETS.request.limit, 3 * medianOf(parse)),
      detail: `${usual.toFixed(2)} ms usually${said ? '' : ', no answer at all'}`,
    });
  const values = medianOf(measureValues(text, rounds));
  const valuesDetail = `${values.toFixed(2)} ms`;
  addPart('values', {
    what: 'values after an edit',
    lines,
    value: (values * 300) / lines,
    detail: valuesDetail,
  });
  const anew = Math.max(...measureOtherAxes(text, rounds));
  addPart('otherAxes', { what: 'values of the other axes', lines, value: anew });
}

for (const lines of SIZES) {
  const { anew, typed, rejoined } = measureCircuits(makeMachine(lines), rounds);
  const addCircuits = (measure: 'circuits' | 'touched', what: string, value: number, taken: number) =>
    addPart(measure, { what, lines, value, detail: `${taken.toFixed(2)} ms` });
  addCircuits('circuits', 'all circuits, states, faults', (anew * 300) / lines, anew);
  addCircuits('touched', 'circuits after a length', (typed / anew) * 100, typed);
  addCircuits('touched', 'circuits after a link', (rejoined / anew) * 100, rejoined);
}

const drawn = await measureDrawings(short ? 3 : 9);
addPart('drawing', {
  what: 'drawing of 60 parts and 300 links',
  value: drawn.large / drawn.examples,
  detail: `${drawn.large.toFixed(2)} ms / link against ${drawn.examples.toFixed(2)}`,
});

// Ten times the files must not need more memory. Fewer than this would not have filled the heap of each thread.
const few = await checkMany(100);
const many = await checkMany(short ? 200 : 1000);
addPart('many', {
  what: `check of ${many.files} files`,
  lines: many.lines,
  value: ((many.processor ?? Number.NaN) * 1000) / many.files,
  detail: `${(many.files / many.seconds).toFixed(1)} files / s on this machine as busy as it is`,
});
addPart('growth', {
  what: `memory against ${few.files} files`,
  value: (many.peak ?? Number.NaN) / (few.peak ?? Number.NaN),
  detail: `${many.peak?.toFixed(0)} MB at most, against ${few.peak?.toFixed(0)} MB`,
});

const over = rows.filter(({ value, limit }) => !(value <= (limit ?? Number.MAX_VALUE)));
fs.mkdirSync(path.join(ROOT, '.cache'), { recursive: true });
fs.writeFileSync(path.join(ROOT, '.cache/bench.json'), `${JSON.stringify(rows, null, 2)}\n`);
for (const { what, lines } of over)
  console.log(`Far beyond what may be: ${what}${lines ? ` at ${lines} lines` : ''}`);
process.exitCode = over.length > 0 ? 1 : 0;

function lineOf({ what, lines, value, unit, budget, detail }: BenchRow): string {
  const size = lines === undefined ? '' : `${lines} lines`;
  const verdict = value <= budget ? 'within' : 'OVER';
  const figure = `${value.toFixed(2)} ${unit}`;
  return `${what.padEnd(38)} ${size.padEnd(11)} ${figure.padStart(18)}  ${verdict.padEnd(6)} ${budget} ${unit}  ${detail}`.trimEnd();
}
