import type { MachineAnalysis } from '../analysis.ts';
import { listTriedSteps, type TriedStep } from '../commission/results.ts';
import { type Expected, STAGE_TEXTS, STAGES, type Stage } from '../commission/step.ts';
import { said, say } from '../language/say.ts';
import type { SummaryItem } from './summary.ts';
import { h, type View, type ViewElement } from './view.ts';

/** The commissioning list, one piece a stage, with a box for each step; what the records say was done is ticked. */
export function commissioningItems(analysis: MachineAnalysis): SummaryItem[] {
  const steps = listTriedSteps(analysis);
  return STAGES.flatMap((stage): SummaryItem[] => {
    const own = steps.filter((step) => step.stage === stage);
    if (own.length === 0) return [];
    return [
      { id: `commissioning:${stage}`, section: 'commissioning', kind: 'view', view: stageView(stage, own) },
    ];
  });
}

function stageView(stage: Stage, steps: readonly TriedStep[]): ViewElement {
  const { title, cautions } = STAGE_TEXTS[stage];
  return h(
    'article',
    { class: 'stage' },
    h('h3', {}, said(title)),
    cautions.map((caution) => cautionView(said(caution))),
    h('ol', { class: 'steps' }, steps.map(stepView)),
  );
}

function stepView(step: TriedStep): ViewElement {
  const { id, title, act, terminals, expected, remedy, cautions, place, result } = step;
  return h(
    'li',
    { class: `step ${result.state}`, 'data-id': place === '' ? undefined : place, tabindex: 0 },
    box(step),
    h('strong', {}, title),
    ' ',
    h('small', { class: 'muted' }, id),
    cautions.map(cautionView),
    h('p', {}, act),
    h(
      'dl',
      {},
      terminals.length > 0 ? entry(say`Terminals`, h('code', {}, terminals.join(', '))) : undefined,
      expected.length > 0 ? entry(say`Expect`, h('ul', {}, expected.map(expectedView))) : undefined,
      entry(say`If not`, remedy),
      result.state === 'open'
        ? undefined
        : entry(result.state === 'done' ? say`Done` : say`Again`, sayResult(step)),
    ),
  );
}

function cautionView(text: string): ViewElement {
  return h('p', { class: 'caution' }, text);
}

function entry(name: string, content: View): View[] {
  return [h('dt', {}, name), h('dd', {}, content)];
}

function expectedView({ when, shown, tolerance }: Expected): ViewElement {
  const start = when === '' ? '' : `${when}: `;
  return h(
    'li',
    {},
    start,
    h('strong', {}, shown),
    tolerance === undefined ? undefined : h('small', { class: 'muted' }, ` (${tolerance})`),
  );
}

/** What a record says of a step, and why it is to be done again. */
export function sayResult({ result }: TriedStep): string {
  const parts = [result.date, result.seen, result.why].filter((part) => part !== undefined);
  return parts.join('; ');
}

/** A tick belongs to what was expected: another expectation is a new box. */
function box(step: TriedStep): ViewElement {
  return h('button', {
    role: 'checkbox',
    'aria-checked': step.result.state === 'done' ? 'true' : 'false',
    'data-tick': `${step.id}=${step.recorded}`,
    'aria-label': say`${step.title} is done`,
  });
}
