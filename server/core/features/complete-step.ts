import type { MachineAnalysis } from '../analysis.ts';
import { listTriedSteps, type TriedStep } from '../commission/results.ts';
import { STAGE_TEXTS } from '../commission/step.ts';
import { said } from '../language/say.ts';
import type { Completion } from './completion-item.ts';
import type { Cursor } from './cursor.ts';

/** What a record of a commissioning step may say: the steps, those first that are left, with what they expect. */
export function completeRecord(analysis: MachineAnalysis, cursor: Cursor): Completion[] {
  const key = cursor.path.at(-1);
  if (key === 'step') return listTriedSteps(analysis).map((step, index) => stepItem(step, index, cursor));
  if (key !== 'expected') return [];
  const shown = new Map(listTriedSteps(analysis).map((step) => [quoted(step), step.id]));
  return [...shown].map(([text, id], rank) => item(text, id, rank, cursor, text));
}

function stepItem(step: TriedStep, index: number, cursor: Cursor): Completion {
  const { id, title, act, stage, result } = step;
  const takesExpected = cursor.inFlow && !cursor.siblings.includes('expected') && step.expected.length > 0;
  const insert = takesExpected ? `${id}, expected: ${quoted(step)}` : id;
  const rank = index + (result.state === 'done' ? 10_000 : 0);
  return {
    ...item(id, title, rank, cursor, insert),
    documentation: `${said(STAGE_TEXTS[stage].title)}. ${act}`,
  };
}

function item(label: string, detail: string, rank: number, cursor: Cursor, insert: string): Completion {
  return { label, kind: 'choice', detail, documentation: '', insert, from: cursor.from, rank };
}

function quoted(step: TriedStep): string {
  return JSON.stringify(step.recorded.replaceAll('"', "'"));
}
