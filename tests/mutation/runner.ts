/**
 * A process that runs tests over instrumented code: first all of a folder, to see what each reaches, then those that are
 * to notice one mutant. A process of its own, since a mutant may run for ever. Usage: runner.ts FOLDER PLACES, with
 * messages; the places are those of the mutants, as JSON.
 */
import path from 'node:path';
import {
  BaseSequencer,
  createVitest,
  type Reporter,
  type TestCase,
  type TestModule,
  type TestSpecification,
} from 'vitest/node';
import { ROOT } from '../support/lsp-client.ts';
import { FOLDERS } from './folders.ts';
import type { Answer, Order, Watched } from './messages.ts';
import { instrument, type Place } from './mutants.ts';

const folder = FOLDERS.find(({ name }) => name === process.argv[2]);
if (!folder) throw new Error(`no such folder: ${process.argv[2]}`);
const { code, mutants } = await instrument(folder.name, JSON.parse(process.argv[3] ?? '[]') as Place[]);
const fileOf: string[] = [];
for (const { id, file } of mutants) fileOf[Number(id)] = file;

/** What failed in the run so far. The state that vitest keeps has also what failed in runs before and was not run again. */
let failed: string[] = [];
const reporter: Reporter = {
  onTestCaseResult: (test) => {
    if (test.result().state === 'failed') failed.push(test.fullName);
  },
  onTestModuleEnd: (file) => {
    if (file.state() === 'failed' && file.errors().length > 0) failed.push(file.relativeModuleId);
  },
};

/** Runs files in the order that they are given in; by itself vitest begins with those that take longest. */
class AsGiven extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return Promise.resolve(files);
  }
}

const vitest = await createVitest(
  'test',
  {
    root: ROOT,
    config: path.join(ROOT, '.project/vitest.config.ts'),
    watch: false,
    coverage: { enabled: false },
    reporters: [reporter],
    sequence: { sequencer: AsGiven },
    setupFiles: ['tests/support/foreign-reads.ts', 'tests/mutation/setup.ts'],
    fsModuleCache: false, // it would take code that is not instrumented for this, and this for that
    pool: 'threads',
    maxWorkers: 1,
    testTimeout: 600_000, // instrumented code takes several times as long
    onConsoleLog: () => false,
  },
  { plugins: [{ name: 'mutants', enforce: 'pre', load: (id) => code.get(id.split('?')[0] ?? '') }] },
);
const project = vitest.getRootProject();

process.on('message', (order: Order) => {
  void (order.kind === 'watch' ? watch(order) : tryMutant(order)).then(tell);
});
process.on('disconnect', () => process.exit());
tell({ kind: 'ready' });

function tell(answer: Answer): void {
  process.send?.(answer);
}

async function watch({ sample }: Order & { kind: 'watch' }): Promise<Answer> {
  project.provide('mutation', { sample: [...sample], fileOf });
  project.config.isolate = true; // what a file passes while it is loaded, it must pass by itself
  const specifications = await vitest.globTestSpecifications([...(folder?.tests ?? [])]);
  const { testModules } = await vitest.runTestSpecifications(specifications);
  const tests = testModules.flatMap((file) =>
    [...file.children.allTests()].map((test) => describe(file, test)),
  );
  return { kind: 'watched', tests, failed };
}

async function tryMutant({ mutant, mostHits, tests }: Order & { kind: 'try' }): Promise<Answer> {
  project.provide('mutation', { active: mutant, mostHits, sample: [], fileOf });
  vitest.config.bail = 1;
  // The mutant is on before anything is loaded and stays on, so files may share what they load; that takes most of the time.
  project.config.isolate = false;
  const files = [...new Set(tests.map(({ file }) => file))];
  const specifications = files.map((file) => {
    const testIds = tests.filter((test) => test.file === file).map(({ id }) => id);
    return project.createSpecification(file, { testIds });
  });
  failed = [];
  await vitest.runTestSpecifications(specifications);
  return { kind: 'tried', failed };
}

function describe(file: TestModule, test: TestCase): Watched {
  const { hits = {}, loaded = {}, files = [] } = test.meta();
  const duration = test.diagnostic()?.duration ?? 0;
  const loading = file.diagnostic().collectDuration;
  return { id: test.id, file: file.moduleId, name: test.fullName, duration, loading, hits, loaded, files };
}
