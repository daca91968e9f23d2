/**
 * Runs gates, the cheap ones first, does all set-up that they need, and ends with the line `N passed, N failed`.
 *
 *   node .project/test.mjs                 what needs npm alone
 *   node .project/test.mjs --e2e           and chromium, Neovim and a real workbench
 *   node .project/test.mjs types unit      only the gates named
 *   node .project/test.mjs --list          their names
 */
import fs from 'node:fs';
import path from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { GATES } from './gates.mjs';
import { CACHE, installPackages, readJson, StepError, say } from './steps.mjs';

const words = process.argv.slice(2);
const named = words.filter((word) => !word.startsWith('--'));
const known = new Set(GATES.map((gate) => gate.name));
const unknown = named.filter((name) => !known.has(name));
const options = words.filter((word) => word.startsWith('--') && word !== '--e2e' && word !== '--list');

if (words.includes('--list')) {
  for (const gate of GATES) console.log(`${gate.name.padEnd(12)} ${gate.title}`);
} else if (unknown.length > 0 || options.length > 0) {
  console.error(`Unknown: ${[...unknown, ...options].join(', ')}. The gates are ${[...known].join(', ')}.`);
  process.exitCode = 2;
} else {
  const chosen =
    named.length > 0
      ? GATES.filter((gate) => named.includes(gate.name))
      : GATES.filter((gate) => !gate.e2e || words.includes('--e2e'));
  process.exitCode = await runGates(chosen);
}

/** Runs gates one after the other, whatever fails before, except those whose foundation failed. Returns the exit code. */
async function runGates(gates) {
  const started = performance.now();
  const results = new Map();
  say('Set-up: packages');
  try {
    console.log(await installPackages());
  } catch (error) {
    report(error);
    console.log('\n0 passed, 1 failed');
    return 1;
  }
  for (const gate of withFoundations(gates)) {
    const base = (gate.after ?? []).find((name) => results.get(name)?.failed);
    say(`${gate.name}: ${gate.title}`);
    const result = base ? skipped(base) : await runGate(gate);
    results.set(gate.name, result);
    writeDown(gate, result);
  }
  const failed = [...results].filter(([, result]) => result.failed > 0);
  say(`All gates, ${Math.round((performance.now() - started) / 1000)} s`);
  for (const [name, { line, failed: count }] of results)
    console.log(`${count > 0 ? 'FAILED' : 'ok    '} ${name.padEnd(12)} ${line}`);
  const sum = (key) => [...results.values()].reduce((total, result) => total + result[key], 0);
  console.log(`\n${sum('passed')} passed, ${sum('failed')} failed`);
  return failed.length > 0 ? 1 : 0;
}

/** The gates with those they stand on before them, each once. */
function withFoundations(gates) {
  const names = new Set(gates.flatMap((gate) => [...(gate.after ?? []), gate.name]));
  return GATES.filter((gate) => names.has(gate.name));
}

/**
 * Runs one gate. It passes when nothing failed and it looked at something: a gate that checks nothing would pass for ever.
 * The gate counts as one beside the tests in it.
 */
async function runGate(gate) {
  const started = performance.now();
  try {
    const { looked, what, passed = 0, failed = 0, note = '' } = await gate.run();
    const seconds = ((performance.now() - started) / 1000).toFixed(1);
    const empty = !(looked > 0);
    const line = `${empty ? 'looked at nothing: expected' : looked} ${what}${note && `, ${note}`} (${seconds} s)`;
    const broken = empty || failed > 0;
    console.log(`${broken ? 'FAILED' : 'ok'}: ${line}`);
    return { line, looked, what, passed: passed + (broken ? 0 : 1), failed: failed + (broken ? 1 : 0) };
  } catch (error) {
    report(error);
    return { line: error.message.split('\n')[0], passed: error.passed ?? 0, failed: (error.failed ?? 0) + 1 };
  }
}

/** Keeps what a gate looked at when it ran last, for the page of figures (tests/quality). */
function writeDown({ name, title }, { looked = 0, what = 'nothing', failed }) {
  const file = path.join(CACHE, 'gates.json');
  const before = fs.existsSync(file) ? readJson(file) : {};
  const day = new Date().toISOString().slice(0, 10);
  const all = { ...before, [name]: { title, looked, what, day, passed: failed === 0 } };
  const inOrder = GATES.flatMap((gate) => (all[gate.name] ? [[gate.name, all[gate.name]]] : []));
  fs.mkdirSync(CACHE, { recursive: true });
  fs.writeFileSync(file, `${JSON.stringify(Object.fromEntries(inOrder), null, 2)}\n`);
}

function skipped(base) {
  console.log(`FAILED: not run, because ${base} failed`);
  return { line: `not run, because ${base} failed`, passed: 0, failed: 1 };
}

function report(error) {
  // Some tools colour what they print in CI, where nobody sees colours.
  const show = process.stdout.isTTY ? (text) => text : stripVTControlCharacters;
  if (error instanceof StepError && error.output) console.log(show(error.output.trimEnd()));
  console.log(`FAILED: ${error instanceof StepError ? error.message : error.stack}`);
}
