/**
 * The gates, in order of cost. Each says how much it looked at, so that a gate gone blind fails instead of passing.
 * A gate with `e2e` needs more than npm; one with `after` stands on the result of another.
 */
import fs from 'node:fs';
import path from 'node:path';
import { auditPackages } from './audit.mjs';
import {
  buildAndPack,
  CACHE,
  CHROMIUM,
  COMPILER,
  EMACS,
  ensurePrograms,
  NEOVIM,
  NGSPICE,
  ROOT,
  readJson,
  run,
  StepError,
} from './steps.mjs';

const UNIT = '.project/vitest.config.ts';
const BUILT = '.project/vitest.built.config.ts';
const TRUTH = '.project/vitest.truth.config.ts';
const PAGE = '.project/vitest.page.config.ts';
const HOSTED = '.project/vitest.hosted.config.ts';

export const GATES = [
  { name: 'format', title: 'layout and common mistakes (biome)', run: checkFormat },
  { name: 'lint', title: 'mistakes that need types to be seen (oxlint)', run: checkLint },
  { name: 'types', title: 'types of all projects (tsc)', run: checkTypes },
  { name: 'dead-code', title: 'files, exports and packages that nothing uses (knip)', run: checkDeadCode },
  {
    name: 'layering',
    title: 'directions of imports between the rings',
    run: () => runTests(UNIT, 'layering', ['tests/project/layering']),
  },
  {
    name: 'dependencies',
    title:
      'what the project stands on: pinned, under agreed licences; known weaknesses, where the registry tells them',
    run: checkDependencies,
  },
  { name: 'unit', title: 'core, schemas, published values, marked texts, with coverage', run: runUnitTests },
  {
    name: 'mistakes',
    title: 'what people type wrongly, over all examples: caught, at the right line, and once',
    run: () => runTests(UNIT, 'mistakes', ['tests/mistakes']),
  },
  { name: 'generated', title: 'generated files in step with their sources', run: checkGenerated },
  { name: 'site', title: 'the site of the documents: built, its links, no network', run: checkSite },
  { name: 'bundle', title: 'bundles and the packed extension', run: bundle },
  {
    name: 'project',
    title: 'manifest, documents and other promises of the project',
    after: ['bundle'],
    run: () =>
      runTests(UNIT, 'project', ['tests/project'], '--exclude=tests/project/{layering,dependencies}.test.ts'),
  },
  {
    name: 'budget',
    title: 'size and contents of the bundles',
    after: ['bundle'],
    run: () => runTests(BUILT, 'budget', ['tests/bundle']),
  },
  {
    name: 'protocol',
    title: 'the built language server over its protocol',
    after: ['bundle'],
    run: () => runTests(BUILT, 'protocol', ['tests/protocol']),
  },
  {
    name: 'programs',
    title: 'the built command line in processes of its own: git, threads, installed from the package',
    after: ['bundle'],
    run: () => runTests(BUILT, 'programs', ['tests/programs']),
  },
  {
    name: 'fuzz',
    title: 'random bytes, structures, machines under edits and messages, and what was found so before',
    after: ['bundle'],
    run: runFuzz,
  },
  {
    name: 'bench',
    title: 'speed against the parse of the same text, short',
    after: ['bundle'],
    run: runBenchmark,
  },
  {
    name: 'endurance',
    title: 'what the built server keeps in memory after many edits and many files, short',
    after: ['bundle'],
    run: runEndurance,
  },
  {
    name: 'truth',
    title: 'the solved circuits against a general-purpose circuit simulator',
    e2e: true,
    run: () => runHosted('truth', ['tests/truth'], NGSPICE, TRUTH),
  },
  {
    name: 'neovim',
    title: 'Neovim as a second editor',
    e2e: true,
    after: ['bundle'],
    run: () => runHosted('neovim', ['tests/editors/neovim'], NEOVIM),
  },
  {
    name: 'emacs',
    title: 'Emacs as a third editor',
    e2e: true,
    after: ['bundle'],
    run: () => runHosted('emacs', ['tests/editors/emacs'], EMACS),
  },
  {
    name: 'page',
    title: 'the wiring summary page and the site of the documents in Chromium',
    e2e: true,
    after: ['site', 'bundle'],
    run: () => runHosted('page', ['tests/page'], CHROMIUM, PAGE),
  },
  {
    name: 'workbench',
    title: 'the packed extension in a real workbench',
    e2e: true,
    after: ['bundle'],
    run: () => runHosted('workbench', ['tests/workbench'], { ...CHROMIUM, ...COMPILER }),
  },
];

async function checkFormat() {
  const output = await run('biome', [
    'check',
    '--max-diagnostics=40',
    ...(process.env.CI ? ['--colors=off'] : []),
  ]);
  return { looked: Number(/Checked (\d+) files?/.exec(output)?.[1]), what: 'files' };
}

async function checkLint() {
  const output = await run('oxlint', ['--type-aware', '--deny-warnings']);
  return { looked: Number(/on (\d+) files?/.exec(output)?.[1]), what: 'files' };
}

/** Checks all projects, and that each TypeScript file of the repository belongs to one: a file outside is checked by nobody. */
async function checkTypes() {
  await run('tsc', ['-b']);
  const checked = new Set();
  for (const reference of readJson(path.join(ROOT, 'tsconfig.json')).references) {
    const listed = await run('tsc', ['-p', reference.path, '--listFilesOnly']);
    for (const file of listed.split('\n'))
      if (file.startsWith(ROOT)) checked.add(path.relative(ROOT, file.trim()));
  }
  const written = (await run('git', ['ls-files', '*.ts', ':!.project/*', ':!*.d.ts']))
    .split('\n')
    .filter(Boolean);
  const missed = written.filter((file) => !checked.has(file));
  if (missed.length > 0) throw new StepError(`not in any TypeScript project: ${missed.join(', ')}`);
  return { looked: written.length, what: 'files' };
}

async function checkDeadCode() {
  const output = await run('knip', [
    '--no-progress',
    '--treat-config-hints-as-errors',
    '--reporter',
    'symbols',
    '--reporter',
    './.project/knip-count.mjs',
  ]);
  return { looked: Number(/knip looked at (\d+) files/.exec(output)?.[1]), what: 'files' };
}

function runUnitTests() {
  return runTests(UNIT, 'unit', [], '--exclude=tests/{project,mistakes,site}/**', '--coverage');
}

async function checkDependencies() {
  const tested = await runTests(UNIT, 'dependencies', ['tests/project/dependencies']);
  return { ...tested, note: await auditPackages() };
}

/**
 * Makes all generated files anew. In CI the checkout is clean, so git is the judge; at work, where it is not, each
 * generator compares for itself.
 */
async function checkGenerated() {
  const generators = fs
    .readdirSync(path.join(ROOT, '.project'))
    .filter((file) => /^generate-.*\.ts$/.test(file));
  for (const file of generators)
    await run('node', [`.project/${file}`, ...(process.env.CI ? [] : ['--check'])]);
  if (process.env.CI) {
    await run('git', ['diff', '--exit-code']);
    const stray = (await run('git', ['status', '--porcelain'])).trim();
    if (stray) throw new StepError(`generated files that are not committed:\n${stray}`);
  }
  return { looked: generators.length, what: 'generators' };
}

async function checkSite() {
  console.log((await run('npm', ['run', '-s', 'docs'])).trim());
  return runTests(UNIT, 'site', ['tests/site']);
}

async function bundle() {
  console.log(await buildAndPack());
  const made = fs.readdirSync(path.join(ROOT, 'dist'));
  return { looked: made.length, what: 'files in dist' };
}

async function runBenchmark() {
  const output = await run('node', ['tests/bench/bench.ts', '--short'], { show: true, minutes: 15 });
  return { looked: (output.match(/^\s*\S+.*\d+ lines/gm) ?? []).length, what: 'measurements' };
}

async function runEndurance() {
  const output = await run('node', ['tests/endurance/endurance.ts', '--short'], { show: true, minutes: 15 });
  return { looked: (output.match(/^after \d+ .* MB$/gm) ?? []).length, what: 'heaps' };
}

/** What was found before, then a minute of new cases. Their seed is fixed, so that a commit is not failed by chance. */
async function runFuzz() {
  const found = await runTests(BUILT, 'fuzz', ['tests/fuzz']);
  const output = await run('node', ['tests/fuzz/fuzz.ts', '--seconds', '60'], { show: true, minutes: 8 });
  return { ...found, note: `${/^(\d+ cases), 0 faults/m.exec(output)?.[1]} without a fault` };
}

async function runHosted(name, folders, programs, config = HOSTED) {
  await ensurePrograms(programs);
  return runTests(config, name, folders);
}

/** Runs the tests in some folders and counts them from vitest's own report, not from what it prints. */
async function runTests(config, name, folders, ...options) {
  const file = path.join(CACHE, 'tests', `${name}.json`);
  fs.rmSync(file, { force: true });
  const args = [
    'run',
    '-c',
    config,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
    ...options,
    ...folders,
  ];
  let failure;
  const output = await run('vitest', args, { minutes: 35 }).catch((error) => {
    failure = error;
    return error.output ?? '';
  });
  const report = fs.existsSync(file)
    ? readJson(file)
    : { testResults: [], numPassedTests: 0, numFailedTests: 0 };
  const counts = { passed: report.numPassedTests, failed: report.numFailedTests };
  if (failure) throw Object.assign(failure, counts);
  const coverage = /Lines\s*:\s*([\d.]+%)/.exec(output)?.[1];
  const skipped = report.numPendingTests > 0 ? `${report.numPendingTests} skipped` : '';
  const note = [coverage && `${coverage} of the lines covered`, skipped].filter(Boolean).join(', ');
  return { looked: counts.passed, what: `tests in ${report.testResults.length} files`, note, ...counts };
}
