/**
 * Tries very many cases: of bytes, of structure, of machines under edits, of messages to the built server. Faults are made
 * small and written to tests/fuzz/found, where a test tries them from then on.
 *
 *   node tests/fuzz/fuzz.ts [bytes|structure|machines|protocol …] [--seconds N] [--cases N] [--seed N] [--dry]
 *
 * Ends with the number of cases of each target and code 1 if there was a fault. `--dry` writes nothing.
 */
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { ROOT } from '../support/lsp-client.ts';
import type { FoundFault } from './run.ts';
import { TARGETS } from './targets.ts';
import type { Order, Told } from './worker.ts';

/** A case that takes longer than this never ends. */
const HANG_MS = 60_000;
const FOUND = path.join(ROOT, 'tests/fuzz/found');

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seconds: { type: 'string', default: '60' },
    cases: { type: 'string' },
    seed: { type: 'string', default: '1' },
    dry: { type: 'boolean', default: false },
  },
});
const unknown = positionals.filter((name) => !TARGETS.some((target) => target.name === name));
if (unknown.length > 0) {
  console.error(
    `Unknown: ${unknown.join(', ')}. The targets are ${TARGETS.map(({ name }) => name).join(', ')}.`,
  );
  process.exit(2);
}
const chosen = TARGETS.filter(({ name }) => positionals.length === 0 || positionals.includes(name));
const shares = chosen.reduce((sum, { share }) => sum + share, 0);

/** What came of one target. */
interface Result {
  readonly target: string;
  readonly about: string;
  readonly cases: number;
  readonly seconds: number;
  readonly faults: readonly FoundFault[];
}

const results: Result[] = [];
for (const { name, about, share } of chosen) {
  const part = share / shares;
  const order: Order = {
    target: name,
    seed: Number(values.seed),
    limits: {
      // Cases that were asked for are all tried, however long that takes.
      cases: values.cases === undefined ? Number.MAX_SAFE_INTEGER : Math.ceil(Number(values.cases) * part),
      seconds: values.cases === undefined ? Number(values.seconds) / chosen.length : Number.MAX_SAFE_INTEGER,
    },
  };
  const started = performance.now();
  const { cases, faults } = await runInThread(order);
  const seconds = (performance.now() - started) / 1000;
  results.push({ target: name, about, cases, seconds, faults });
  console.log(
    `${name.padEnd(10)} ${String(cases).padStart(7)} cases, ${(cases / seconds).toFixed(0)} a second, ${faults.length} faults`,
  );
  for (const fault of faults) report(fault);
}
const total = results.reduce((sum, { cases }) => sum + cases, 0);
const faults = results.flatMap((result) => result.faults);
console.log(`${total} cases, ${faults.length} faults, seed ${values.seed}`);
fs.mkdirSync(path.join(ROOT, '.cache'), { recursive: true });
const summary = results.map(({ faults: found, ...result }) => ({ ...result, faults: found.length }));
fs.writeFileSync(
  path.join(ROOT, '.cache/fuzz.json'),
  `${JSON.stringify({ seed: Number(values.seed), results: summary }, null, 2)}\n`,
);
process.exitCode = faults.length > 0 ? 1 : 0;

function runInThread(order: Order): Promise<{ cases: number; faults: readonly FoundFault[] }> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('worker.ts', import.meta.url), { workerData: order });
    let [last, heard, cases, shown]: [unknown, number, number, number] = [
      undefined,
      performance.now(),
      0,
      performance.now(),
    ];
    const watch = setInterval(() => {
      if (performance.now() - heard < HANG_MS) return;
      clearInterval(watch);
      const hang = {
        target: order.target,
        message: 'it never ends',
        stack: '',
        stored: last,
        seed: order.seed,
      };
      void worker.terminate().then(() => resolve({ cases, faults: [hang] }));
    }, 1000);
    worker.on('message', (told: Told) => {
      heard = performance.now();
      if (told.kind === 'case') last = told.stored;
      else cases = told.cases;
      if (told.kind === 'batch' && heard - shown > 10_000) {
        shown = heard;
        console.log(`  ${order.target}: ${cases} cases`);
      }
      if (told.kind === 'done') {
        clearInterval(watch);
        resolve(told);
      }
    });
    worker.on('error', (fault) => {
      clearInterval(watch);
      reject(fault instanceof Error ? fault : new Error(String(fault)));
    });
  });
}

function report({ target, message, stack, stored, seed }: FoundFault): void {
  const text = `${JSON.stringify({ target, message: message.split('\n')[0], stored }, null, 2)}\n`;
  const name = `${target}-${createHash('sha256').update(text).digest('hex').slice(0, 8)}.json`;
  console.log(
    `\n${message}\n${stack.split('\n').slice(1, 6).join('\n')}\n  seed ${seed}${values.dry ? '' : `, tests/fuzz/found/${name}`}\n`,
  );
  if (values.dry) {
    console.log(text);
    return;
  }
  fs.mkdirSync(FOUND, { recursive: true });
  fs.writeFileSync(path.join(FOUND, name), text);
}
