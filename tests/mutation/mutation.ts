/**
 * Changes the code of folders a little, one place at a time, and tells which changes no test notices. A seeded sample of
 * all mutants is tried; what is found is kept by the text of each file, so that only what changed is tried again.
 *
 *   node tests/mutation/mutation.ts [FOLDER …] [--sample N] [--seed N] [--again]
 *
 * `--again` tries those anew that were noticed by no test before, but for those that make no difference. Writes tests/mutation/results.json.
 */
import fs from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { describeMachine, today } from '../quality/machine.ts';
import { ROOT } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';
import { sampleOf, testsFor } from './choose.ts';
import { isEquivalent } from './equivalent.ts';
import { FOLDERS, type Folder } from './folders.ts';
import type { Watched } from './messages.ts';
import { instrument, type Mutant } from './mutants.ts';
import { type Fate, RESULTS, readResults } from './results.ts';
import { openSession, type Session } from './session.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: 'string', default: '150' },
    seed: { type: 'string', default: '1' },
    again: { type: 'boolean', default: false },
  },
});
const unknown = positionals.filter((word) => !FOLDERS.some(({ name }) => name.endsWith(`/${word}`)));
if (unknown.length > 0) {
  console.error(
    `Unknown: ${unknown.join(', ')}. The folders are ${FOLDERS.map(({ name }) => path.basename(name)).join(', ')}.`,
  );
  process.exit(2);
}
/** Each fate by the mutant's key, written after every mutant, so that a run that was broken off can go on. */
const FATES = path.join(ROOT, '.cache/mutation.json');
const fates: Record<string, Fate> = fs.existsSync(FATES) ? JSON.parse(fs.readFileSync(FATES, 'utf8')) : {};
const EVERY_CONTROL = 20;
const machine = describeMachine();
for (const folder of FOLDERS)
  if (positionals.length === 0 || positionals.includes(path.basename(folder.name))) await tryFolder(folder);

async function tryFolder(folder: Folder): Promise<void> {
  const { mutants } = await instrument(folder.name);
  const sample = sampleOf(mutants, Number(values.sample), randomFrom(Number(values.seed)));
  const open = sample.filter(
    (mutant) =>
      !fates[mutant.key] || (values.again && !isNoticed(fates[mutant.key]) && !isEquivalent(mutant)),
  );
  console.log(`${folder.name}: ${sample.length} of ${mutants.length} mutants, ${open.length} to try`);
  if (open.length > 0) await tryMutants(folder, open);
  const results = sample.map(({ id: _id, place: _place, ...mutant }) => ({
    ...mutant,
    fate: fates[mutant.key] ?? 'unreached',
  }));
  const left = results.filter(({ fate }) => !isNoticed(fate));
  const killed = results.length - left.length;
  const found = {
    day: today(),
    machine,
    seed: Number(values.seed),
    mutants: mutants.length,
    tried: results.length,
    killed,
    left,
  };
  fs.writeFileSync(RESULTS, `${JSON.stringify({ ...readResults(), [folder.name]: found }, null, 2)}\n`);
  console.log(`${folder.name}: ${killed} of ${results.length} noticed`);
}

async function tryMutants(folder: Folder, open: readonly Mutant[]): Promise<void> {
  const places = open.map(({ place }) => place);
  const keys = new Set(open.map(({ key }) => key));
  const mutants = (await instrument(folder.name, places)).mutants.filter(({ key }) => keys.has(key));
  if (mutants.length !== open.length) throw new Error('not every change could be made by itself');
  const session = openSession(folder.name, places);
  try {
    const watched = await session.ask({ kind: 'watch', sample: mutants.map(({ id }) => id) });
    if (watched?.kind !== 'watched') throw new Error('the tests could not be watched');
    if (watched.failed.length > 0) throw new Error(`these fail already: ${watched.failed.join(', ')}`);
    for (const [index, mutant] of mutants.entries()) {
      const fate = await fateOf(mutant, watched.tests, session);
      fates[mutant.key] = fate;
      fs.writeFileSync(FATES, JSON.stringify(fates));
      if (index % EVERY_CONTROL === 0) await control(mutant, watched.tests, session);
      const change = `${mutant.original} → ${mutant.replacement}`.replace(/\s+/g, ' ').slice(0, 120);
      console.log(`  ${index + 1}/${mutants.length} ${fate} ${mutant.file}:${mutant.line} ${change}`);
    }
  } finally {
    session.stop();
  }
}

/** Runs the tests of a mutant with nothing switched on: what fails then would be taken for a mutant that was noticed. */
async function control(mutant: Mutant, watched: readonly Watched[], session: Session): Promise<void> {
  const tests = testsFor(mutant, watched);
  if (tests.length === 0) return;
  const answer = await session.ask({ kind: 'try', mutant: 'none', mostHits: Number.MAX_SAFE_INTEGER, tests });
  if (answer?.kind !== 'tried' || answer.failed.length > 0)
    throw new Error(
      `these fail without any change: ${answer?.kind === 'tried' ? answer.failed.join(', ') : 'none'}`,
    );
}

async function fateOf(mutant: Mutant, watched: readonly Watched[], session: Session): Promise<Fate> {
  const tests = testsFor(mutant, watched);
  if (tests.length === 0) return 'unreached';
  const loads = new Map(watched.map(({ file, loaded }) => [file, loaded[mutant.id] ?? 0]));
  const hits = [...watched.map((test) => test.hits[mutant.id] ?? 0), ...loads.values()].reduce(
    (sum, count) => sum + count,
    0,
  );
  const answer = await session.ask({ kind: 'try', mutant: mutant.id, mostHits: 100 * (hits + 100), tests });
  if (answer === undefined) return 'endless';
  return answer.kind === 'tried' && answer.failed.length > 0 ? 'killed' : 'survived';
}

function isNoticed(fate: Fate | undefined): boolean {
  return fate === 'killed' || fate === 'endless';
}
