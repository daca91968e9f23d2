import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { keyedInMeaning, numberKeyed } from '../model/settings.ts';
import type { Fields } from '../shape/fields.ts';
import { controllerOf } from '../values/axis-parts.ts';
import { newestRecords } from '../values/records-of.ts';
import { listSteps } from './commission.ts';
import type { Step } from './step.ts';

/** How far a step is: never done, done, or to be done again, since what it stood on has changed. */
export interface Result {
  readonly state: 'open' | 'done' | 'again';
  readonly date?: string;
  readonly seen?: string;
  /** Why it is to be done again. */
  readonly why?: string;
}

/** A step with its result. */
export interface TriedStep extends Step {
  readonly result: Result;
}

const kept = new WeakMap<MachineAnalysis, readonly TriedStep[]>();

/** The commissioning list with what the machine's records say of each step. */
export function listTriedSteps(analysis: MachineAnalysis): readonly TriedStep[] {
  let steps = kept.get(analysis);
  if (!steps) {
    const records = stepRecords(analysis);
    steps = listSteps(analysis).map((step) => ({ ...step, result: resultOf(analysis, step, records) }));
    kept.set(analysis, steps);
  }
  return steps;
}

/** The newest record of each step that was done, by the step's id. */
export function stepRecords({ machine }: MachineAnalysis): ReadonlyMap<string, Fields> {
  const newest = new Map<string, Fields>();
  for (const record of machine.fields.items('records')) {
    const step = record.text('step')?.value;
    if (step !== undefined) newest.set(step, record);
  }
  return newest;
}

function resultOf(analysis: MachineAnalysis, step: Step, records: ReadonlyMap<string, Fields>): Result {
  const record = records.get(step.id);
  if (record) return resultOfRecord(step, record);
  const [measure = '', axis = ''] = step.id.split(':');
  if (measure === 'scale' || measure === 'backlash') return resultOfMeasure(analysis, measure, axis);
  if (step.id === 'spindle-speeds') return resultOfReadings(analysis);
  return { state: 'open' };
}

function resultOfRecord(step: Step, record: Fields): Result {
  const expected = record.text('expected')?.value;
  const now = step.recorded;
  if (expected === undefined || isSame(expected, now)) return { state: 'done', ...readingOf(record) };
  return { state: 'again', ...readingOf(record), why: say`expected was ${expected}, now it is ${now}` };
}

/** Quotes cannot stand inside quotes, so a record has other ones. */
export function isSame(recorded: string, expected: string): boolean {
  const plain = (text: string) => text.replace(/["'\s]+/g, ' ').trim();
  return plain(recorded) === plain(expected);
}

/** What is measured on an axis: the figure of its record, what was keyed in then, and what it asks for now. */
const MEASURES = {
  scale: {
    figure: 'asked',
    noted: 'scale',
    is: 'pulses-per-length',
    corrected: 'corrected-pulses-per-length',
  },
  backlash: { figure: 'backlash', noted: 'setting', is: 'backlash', corrected: 'corrected-backlash' },
} as const;

/**
 * A measurement counts for as long as what was keyed in then is keyed in, or what it made of it, and for as long as it
 * asks for nothing else.
 */
function resultOfMeasure(analysis: MachineAnalysis, measure: keyof typeof MEASURES, axis: string): Result {
  const { machine, values } = analysis;
  const { figure, noted, is, corrected } = MEASURES[measure];
  const record = newestRecords(machine, figure).get(axis);
  if (!record) return { state: 'open' };
  const reading = readingOf(record, figure === 'asked' ? 'seen' : figure);
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, is, { axis });
  const now = keyed && numberKeyed(keyed);
  const asked = values.byAddress.get(`axes.${axis}.${corrected}`);
  if (now === undefined) return { state: 'done', ...reading };
  if (asked && !isNear(now, asked.si))
    return { state: 'again', ...reading, why: say`it asks for ${asked.shown}` };
  const before = record.quantity(noted);
  if (!asked && before && !isNear(now, before.value.value))
    return { state: 'again', ...reading, why: say`it was measured with ${before.text}` };
  return { state: 'done', ...reading };
}

/** Settings are rounded to the decimals of their part, which is less than anybody can measure. */
function isNear(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-4 * Math.max(Math.abs(a), Math.abs(b)) + 1e-9;
}

function resultOfReadings({ machine }: MachineAnalysis): Result {
  const readings = machine.fields.child('spindle').items('readings');
  const seen = readings.flatMap((reading) => reading.text('seen')?.value ?? []);
  return seen.length > 0 ? { state: 'done', seen: seen.join(', ') } : { state: 'open' };
}

function readingOf(record: Fields, figure = 'seen'): Pick<Result, 'date' | 'seen'> {
  const [date, seen] = [record.text('date')?.value, record.text(figure)?.value];
  return { ...(date !== undefined && { date }), ...(seen !== undefined && { seen }) };
}
