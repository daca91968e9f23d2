import type { TriedStep } from '../../core/commission/results.ts';
import { type Expected, expectedText, STAGE_TEXTS, STAGES } from '../../core/commission/step.ts';
import { writeCsv } from '../../core/csv.ts';
import { codeSpan, escapeMarkdown } from '../../core/features/markdown.ts';
import { said, say } from '../../core/language/say.ts';
import { CAUTIONS } from '../../core/summary/cautions.ts';
import { sayResult } from '../../core/summary/commissioning.ts';
import { printable } from '../colours.ts';

/** How a step stands, as a person calls it. */
const sayState = ({ result }: TriedStep) =>
  ({ open: say`open`, again: say`again`, done: say`done` })[result.state];

const MARKS = { open: '[ ]', again: '[!]', done: '[x]' } as const;

/** The list for a terminal. */
export function printStepsText(steps: readonly TriedStep[]): string {
  const line = (name: string, text: string) =>
    text === '' ? [] : [`      ${name.padEnd(10)}${printable(text)}`];
  const stages = stagesOf(steps).map(({ title, cautions, own }) => [
    title,
    ...cautions.map((caution) => `  ! ${caution}`),
    ...own.flatMap((step) => [
      `  ${MARKS[step.result.state]} ${printable(step.title)}  (${printable(step.id)})`,
      ...step.cautions.map((caution) => `      ! ${printable(caution)}`),
      ...line(say`do`, step.act),
      ...line(say`terminals`, step.terminals.join(', ')),
      ...step.expected.flatMap((expected, index) =>
        line(index === 0 ? say`expect` : '', sayExpected(expected)),
      ),
      ...line(say`if not`, step.remedy),
      ...line(sayState(step), sayResult(step)),
    ]),
    '',
  ]);
  return [...CAUTIONS.map((caution) => `! ${said(caution)}`), '', ...stages.flat()].join('\n');
}

/** The list as Markdown, with boxes to tick. */
export function printStepsMarkdown(steps: readonly TriedStep[]): string {
  const stages = stagesOf(steps).map(({ title, cautions, own }) => [
    `## ${title}`,
    '',
    ...cautions.flatMap((caution) => [`> ${escapeMarkdown(caution)}`, '']),
    ...own.flatMap((step) => [
      `- [${step.result.state === 'done' ? 'x' : ' '}] **${escapeMarkdown(step.title)}** ${codeSpan(step.id)}`,
      ...step.cautions.map((caution) => `  - ${say`Caution: ${escapeMarkdown(caution)}`}`),
      `  - ${escapeMarkdown(step.act)}`,
      ...(step.terminals.length > 0
        ? [`  - ${say`Terminals: ${step.terminals.map(codeSpan).join(', ')}`}`]
        : []),
      ...step.expected.map((expected) => `  - ${say`Expect ${escapeMarkdown(sayExpected(expected))}`}`),
      `  - ${say`If not: ${escapeMarkdown(step.remedy)}`}`,
      ...(step.result.state === 'open'
        ? []
        : [
            `  - ${step.result.state === 'done' ? say`Done: ${escapeMarkdown(sayResult(step))}` : say`Again: ${escapeMarkdown(sayResult(step))}`}`,
          ]),
    ]),
    '',
  ]);
  const cautions = CAUTIONS.flatMap((caution) => [`> ${escapeMarkdown(said(caution))}`, '>']).slice(0, -1);
  return [`# ${say`Commissioning list`}`, '', ...cautions, '', ...stages.flat()].join('\n');
}

/** The list as plain data. */
export function printStepsJson(steps: readonly TriedStep[]): string {
  return `${JSON.stringify(steps, null, 2)}\n`;
}

/** The list as one table. */
export function printStepsCsv(steps: readonly TriedStep[]): string {
  const heads = [
    'stage',
    'step',
    'title',
    'do',
    'terminals',
    'expect',
    'if not',
    'settings',
    'cautions',
    'state',
    'date',
    'seen',
    'why again',
  ];
  return writeCsv([
    heads,
    ...steps.map((step) => [
      step.stage,
      step.id,
      step.title,
      step.act,
      step.terminals.join(' '),
      expectedText(step),
      step.remedy,
      step.settings.join(' '),
      [...STAGE_TEXTS[step.stage].cautions.map(said), ...step.cautions].join(' '),
      step.result.state,
      step.result.date ?? '',
      step.result.seen ?? '',
      step.result.why ?? '',
    ]),
  ]);
}

function sayExpected({ when, shown, tolerance }: Expected): string {
  return `${when === '' ? '' : `${when}: `}${shown}${tolerance === undefined ? '' : ` (${tolerance})`}`;
}

function stagesOf(steps: readonly TriedStep[]) {
  return STAGES.flatMap((stage) => {
    const own = steps.filter((step) => step.stage === stage);
    const { title, cautions } = STAGE_TEXTS[stage];
    return own.length > 0 ? [{ title: said(title), cautions: cautions.map(said), own }] : [];
  });
}
