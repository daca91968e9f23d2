/**
 * Measures the figures of the project, stores them in figures.json and writes docs/quality.md of all that are stored.
 * Usage: quality.ts [PART …], by default all parts. Ends with code 1 when something that was run for it failed.
 */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { describeMachine, today } from './machine.ts';
import { renderPage } from './page.ts';
import type { Made, Part } from './part.ts';
import { PARTS } from './parts.ts';
import { readStored, STORED } from './stored.ts';

const named = process.argv.slice(2);
const unknown = named.filter((name) => !PARTS.some((part) => part.name === name));
if (unknown.length > 0) {
  console.error(`Unknown: ${unknown.join(', ')}. The parts are ${PARTS.map(({ name }) => name).join(', ')}.`);
  process.exit(2);
}

// Asked before anything is run, since the runs are a load themselves.
const machine = describeMachine();
for (const part of PARTS.filter(({ name }) => named.length === 0 || named.includes(name))) {
  console.log(`\n==> ${part.title}`);
  const stored = readStored();
  const made = await measure(part, stored[part.name]);
  fs.writeFileSync(STORED, `${JSON.stringify({ ...stored, [part.name]: made }, rounded, 2)}\n`);
}
fs.writeFileSync(path.join(ROOT, 'docs/quality.md'), renderPage(readStored()));
console.log('\nwrote docs/quality.md');

async function measure(part: Part<unknown>, before: Made | undefined): Promise<Made> {
  if (part.make && (await runNode(part.make)) !== 0) {
    console.log(`${part.make.join(' ')} failed; what it measured is shown all the same.`);
    process.exitCode = 1;
  }
  const figures = part.read(before?.figures);
  return { day: today(), machine, figures };
}

function runNode(args: readonly string[]): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, { cwd: ROOT, stdio: 'inherit' });
    child.on('error', reject);
    child.on('close', resolve);
  });
}

/** Four figures say as much as a measurement does, and leave what changed readable. */
function rounded(_: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(4)) : value;
}
