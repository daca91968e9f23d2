import { later, say } from '../../core/language/say.ts';
import { CommandError, defineCommand, EXIT, type Streams } from '../command.ts';
import { checkFiles, type GivenText, type Work } from './check-files.ts';
import type { Checked, ShownFinding } from './checked.ts';
import { annotationPrinter } from './print-annotations.ts';
import { jsonPrinter } from './print-json.ts';
import { junitPrinter } from './print-junit.ts';
import { sarifPrinter } from './print-sarif.ts';
import { textPrinter } from './print-text.ts';
import type { Printer, PrinterOptions } from './printer.ts';
import { createProgress } from './progress.ts';
import { selectFiles } from './select.ts';

const FORMATS = ['text', 'json', 'sarif', 'junit', 'annotations'] as const;
const FAIL_ON = ['warning', 'error', 'hint', 'never'] as const;
type Severity = ShownFinding['severity'];

/** `fettle check`: the findings of files. */
export const check = defineCommand({
  name: 'check',
  operands: 'FILES',
  about: later`what is wrong in machines and part sheets`,
  details: later`Checks machines (NAME.machine.yaml) and part sheets (NAME.part.yaml). Sheets that a machine names are read from beside it
and from the library that ships. FILES may be patterns in quotes (* ? ** {a,b}), or - for standard input.

  text         a finding a paragraph, with the lines that it is about
  json         an array of {file, line, column, endLine, endColumn, severity, code, message, related?, silenced?};
               lines and columns count from 1, columns in UTF-16 units; silenced: {by: line, file or project, reason}
  sarif        SARIF 2.1.0, the standard for results of static analysis; what is silenced is there as suppressed
  junit        the XML of JUnit's runners, which continuous integration hosts show as test results
  annotations  ::error file=…,line=…::message, which continuous integration hosts show beside the line

Exit codes: 0 nothing as grave as --fail-on says, 1 something is, 2 a file could not be read or the command could not
run; the other files are checked all the same.`,
  options: {
    format: { choices: FORMATS, about: later`how to write it` },
    'fail-on': { choices: FAIL_ON, about: later`the least severity that gives exit code 1` },
    'changed-since': {
      takes: 'REV',
      about: later`report only what has to do with changes since this git revision: findings that are new, or on changed lines, in files that differ and in machines whose sheets do; without FILES all definitions in this folder`,
    },
    threads: {
      takes: 'N',
      about: later`how many files are checked at a time; without it as suits their number`,
    },
    shard: { takes: 'I/N', about: later`check every n-th file from the i-th on, for running in parallel` },
    'stdin-path': { takes: 'FILE', about: later`as which file standard input is checked` },
  },
  examples: [
    "fettle check 'machines/**/*.machine.yaml'",
    'fettle check --changed-since main --format annotations',
    'fettle check --format sarif examples/*/*.machine.yaml > findings.sarif',
    'fettle check - --stdin-path router.machine.yaml < router.machine.yaml',
  ],
  run: async ({ operands, options }, streams) => {
    const fails = failsFrom(options['fail-on']);
    const printer = PRINTERS[options.format]({ colour: streams.colour === true, fails });
    const given = await readInput(operands, options['stdin-path'], streams);
    const { files, scope } = await select(operands, options['changed-since'], options.shard);
    return checkAndPrint(
      { files, given, scope, threads: readThreads(options.threads) },
      printer,
      fails,
      streams,
    );
  },
});

const PRINTERS: Readonly<Record<(typeof FORMATS)[number], (options: PrinterOptions) => Printer>> = {
  text: textPrinter,
  json: jsonPrinter,
  sarif: sarifPrinter,
  junit: junitPrinter,
  annotations: annotationPrinter,
};

/** Whether a finding is at least as grave as the word says. */
function failsFrom(word: (typeof FAIL_ON)[number]): (finding: ShownFinding) => boolean {
  const order: readonly Severity[] = ['error', 'warning', 'hint'];
  const counted = word === 'never' ? [] : order.slice(0, order.indexOf(word) + 1);
  return ({ severity }) => counted.includes(severity);
}

/** Standard input is read only when it was asked for by the name `-`. */
async function readInput(
  operands: readonly string[],
  path: string | undefined,
  { input }: Streams,
): Promise<GivenText | undefined> {
  if (!operands.includes('-')) {
    if (path !== undefined) throw new CommandError(say`--stdin-path goes with - as the file.`);
    return undefined;
  }
  const text = (await input?.()) ?? '';
  return { path: path ?? 'standard-input.machine.yaml', text: text.replace(/^\ufeff/, '') };
}

/** @throws CommandError for anything but a small number */
function readThreads(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (/^(?:[1-9]|[1-5]\d|6[0-4])$/.test(text)) return Number(text);
  throw new CommandError(say`--threads takes a number from 1 to 64; "${text}" is not.`);
}

function select(operands: readonly string[], changedSince: string | undefined, shard: string | undefined) {
  const named = operands.filter((operand) => operand !== '-');
  if (named.length === 0 && operands.length > 0) return { files: [], scope: {} };
  return selectFiles({ operands: named, changedSince, shard });
}

async function checkAndPrint(
  work: Work,
  printer: Printer,
  fails: (finding: ShownFinding) => boolean,
  streams: Streams,
): Promise<number> {
  const totals = { files: 0, unread: 0, failing: 0, silenced: 0, error: 0, warning: 0, hint: 0 };
  const progress = createProgress(work.files.length, streams);
  const take = (checked: Checked) => {
    progress.step();
    if (checked.kind === 'unread') {
      totals.unread += 1;
      progress.clear();
      streams.err(`fettle: ${checked.why}\n`);
    } else if (checked.kind === 'checked') {
      totals.files += 1;
      for (const { severity } of checked.findings) totals[severity] += 1;
      totals.silenced += checked.silenced.length;
      totals.failing += checked.findings.filter(fails).length;
    }
    print(printer.file(checked));
  };
  const print = (text: string) => {
    if (text === '') return;
    progress.clear();
    streams.out(text);
  };
  print(printer.begin());
  await checkFiles(work, streams, take);
  print(printer.end());
  progress.clear();
  streams.err(`${summarise(totals)}\n`);
  if (totals.unread > 0) return EXIT.cannot;
  return totals.failing > 0 ? EXIT.findings : EXIT.clean;
}

function summarise(totals: Readonly<Record<'files' | 'silenced' | Severity, number>>): string {
  const { files, error, warning, hint, silenced } = totals;
  const found = say`${files} ${files === 1 ? 'file' : 'files'} checked: ${error} ${error === 1 ? 'error' : 'errors'}, ${warning} ${warning === 1 ? 'warning' : 'warnings'}, ${hint} ${hint === 1 ? 'hint' : 'hints'}`;
  return `${found}${silenced > 0 ? say`; ${silenced} silenced` : ''}.`;
}
