import { listTriedSteps, type TriedStep } from '../../core/commission/results.ts';
import { STAGES } from '../../core/commission/step.ts';
import { later, say } from '../../core/language/say.ts';
import { CommandError, defineCommand, EXIT, onlyFile } from '../command.ts';
import { createLoader } from '../load.ts';
import { OUTPUT_OPTIONS, writeResult } from '../output.ts';
import { printStepsCsv, printStepsJson, printStepsMarkdown, printStepsText } from './print.ts';

const FORMATS = ['text', 'markdown', 'json', 'csv'] as const;

/** `fettle commission FILE`: how this machine is brought up, step by step, and what is left of it. */
export const commission = defineCommand({
  name: 'commission',
  operands: 'FILE',
  about: later`how to bring this machine up, step by step, and what is left after a change`,
  details: later`Every step in a safe order, with its terminals, what to expect and what to change if it comes out wrong. What was done
is kept in the machine, newest last; a step whose expectation has changed since is to be done again:

  records:
    - { date: 2026-03-02, step: supply:logic-psu, expected: "24 V", seen: "24.1 V" }
    - { date: 2026-03-02, axis: X, asked: 500 mm, seen: 499.62 mm, within: 0.05 mm }

  text      for a terminal
  markdown  a list with boxes to tick
  json      an array of steps {id, stage, title, act, terminals, expected, remedy, settings, cautions, after, result}
  csv       one line a step (RFC 4180)

Exit codes: 0 nothing is left, 1 steps are left, 2 the command could not run.`,
  options: {
    format: { choices: FORMATS, about: later`how to write it` },
    left: { about: later`only the steps that are not done, or to be done again` },
    stage: { takes: 'STAGE', about: () => say`only one stage: ${STAGES.join(', ')}` },
    ...OUTPUT_OPTIONS,
  },
  examples: [
    'fettle commission examples/gantry-router/gantry-router.machine.yaml',
    'fettle commission --left --format markdown -o left.md router.machine.yaml',
  ],
  run: async ({ operands, options }, streams) => {
    const file = onlyFile(
      operands,
      say`commission takes one machine. "fettle help commission" shows an example.`,
    );
    const { analysis } = await createLoader()(file);
    if (analysis.kind !== 'machine')
      throw new CommandError(say`${file} is a part sheet; commission takes a machine.`);
    if (options.stage !== undefined && !STAGES.some((stage) => stage === options.stage))
      throw new CommandError(say`there is no stage ${options.stage}; take one of ${STAGES.join(', ')}.`);
    const steps = listTriedSteps(analysis).filter(
      ({ stage }) => options.stage === undefined || stage === options.stage,
    );
    const left = steps.filter(({ result }) => result.state !== 'done');
    await writeResult(PRINTERS[options.format](options.left ? left : steps), options, streams);
    const again = left.filter(({ result }) => result.state === 'again').length;
    streams.err(
      `${say`${left.length} of ${steps.length} steps left`}${again > 0 ? say`, ${again} to be done again` : ''}.\n`,
    );
    return left.length > 0 ? EXIT.findings : EXIT.clean;
  },
});

const PRINTERS: Readonly<Record<(typeof FORMATS)[number], (steps: readonly TriedStep[]) => string>> = {
  text: printStepsText,
  markdown: printStepsMarkdown,
  json: printStepsJson,
  csv: printStepsCsv,
};
