import type { MachineAnalysis } from '../analysis.ts';
import { keyedInMeaning, numberKeyed } from '../model/settings.ts';
import type { Fields } from '../shape/fields.ts';
import { controllerOf } from '../values/axis-parts.ts';
import { newestRecords } from '../values/records-of.ts';
import { listSteps } from './commission.ts';
import { expectedText, type Step } from './step.ts';

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
  if (step.stage === 'scales') return resultOfMove(analysis, step.id.slice('scale:'.length));
  if (step.id === 'spindle-speeds') return resultOfReadings(analysis);
  return { state: 'open' };
}

function resultOfRecord(step: Step, record: Fields): Result {
  const expected = record.text('expected')?.value;
  const now = expectedText(step);
  if (expected === undefined || isSame(expected, now)) return { state: 'done', ...readingOf(record) };
  return { state: 'again', ...readingOf(record), why: `expected was ${expected}, now it is ${now}` };
}

/** Quotes cannot stand inside quotes, so a record has other ones. */
export function isSame(recorded: string, expected: string): boolean {
  const plain = (text: string) => text.replace(/["'\s]+/g, ' ').trim();
  return plain(recorded) === plain(expected);
}

/** A measured move counts for as long as the scale that it was measured with is keyed in, and asks for no other one. */
function resultOfMove(analysis: MachineAnalysis, axis: string): Result {
  const { machine, values } = analysis;
  const record = newestRecords(machine, 'asked').get(axis);
  if (!record) return { state: 'open' };
  const reading = readingOf(record);
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'pulses-per-length', { axis });
  const then = record.quantity('scale');
  const now = keyed && numberKeyed(keyed);
  if (then && now !== undefined && Math.abs(now / then.value.value - 1) > 1e-6)
    return { state: 'again', ...reading, why: `it was measured with ${then.text}` };
  const corrected = values.byAddress.get(`axes.${axis}.corrected-pulses-per-length`);
  if (corrected && now !== undefined && Math.abs(now / corrected.si - 1) > 1e-6)
    return { state: 'again', ...reading, why: `it asks for ${corrected.shown}` };
  return { state: 'done', ...reading };
}

function resultOfReadings({ machine }: MachineAnalysis): Result {
  const readings = machine.fields.child('spindle').items('readings');
  const seen = readings.flatMap((reading) => reading.text('seen')?.value ?? []);
  return seen.length > 0 ? { state: 'done', seen: seen.join(', ') } : { state: 'open' };
}

function readingOf(record: Fields): Pick<Result, 'date' | 'seen'> {
  const [date, seen] = [record.text('date')?.value, record.text('seen')?.value];
  return { ...(date !== undefined && { date }), ...(seen !== undefined && { seen }) };
}
