import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { Actor } from '../../circuits/solve/actors.ts';
import { closedAtRest } from '../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { say } from '../../language/say.ts';
import { type Keyed, keyedIn, keyedInMeaning, settingsMeaning } from '../../model/settings.ts';
import type { Fix } from '../../problem.ts';
import { otherSensorSheets } from './sensor-sheets.ts';
import { changeSetting } from './setting-edit.ts';
import { presentAt } from './sights.ts';

/** Turns round how an input is understood: the function acts on the other of its two levels. */
export function turnSense(analysis: MachineAnalysis, input: SolvedInput): Fix | undefined {
  const { part, circuit } = presentAt(analysis, input.at);
  const of = { circuit: circuit.name };
  const keyed = keyedInMeaning(analysis.machine.file, part, 'input-sense', of);
  if (!keyed) return undefined;
  const other = keyed.setting.choices.find((choice) => choice !== keyed.scalar.text);
  return other === undefined ? undefined : changeSetting(analysis, keyed, other).fix;
}

/** Turns round what acts on an input: another contact of the switch, or the sensor's sheet with the other rest state. */
export function turnActor(
  analysis: MachineAnalysis,
  { solution }: SolvedInput,
  actor: Actor | undefined,
): Fix[] {
  return (actor?.elements ?? []).slice(0, 1).flatMap((place) => {
    const element = solution.circuit.board.elements[place];
    if (!element) return [];
    const at = presentAt(analysis, element.at);
    if (at.circuit.kind === 'sensor') return otherSensorSheets(analysis, at, { rest: 'other' });
    const keyed = contactSetting(analysis, at);
    if (!keyed) return [];
    const isClosed = closedAtRest(analysis.machine, at.part, at.circuit);
    const wanted = isClosed ? 'normally-open' : 'normally-closed';
    const choice = keyed.setting.choices.find((each) => each === wanted);
    const fix = choice === undefined ? undefined : changeSetting(analysis, keyed, choice).fix;
    return fix ? [fix] : [];
  });
}

/** The setting that says which contact of a switch is wired. */
export function contactSetting(
  { machine }: MachineAnalysis,
  { part, circuit }: CircuitAt,
): Keyed | undefined {
  const [setting] = settingsMeaning(part, 'contact', { circuit: circuit.name });
  return setting && keyedIn(machine.file, part, setting);
}

/** One action that does both, for changes that are right only together. */
export function together(a: Fix | undefined, b: Fix | undefined): Fix | undefined {
  if (!a || !b) return undefined;
  const second = `${b.title[0]?.toLowerCase() ?? ''}${b.title.slice(1)}`;
  return { title: say`${a.title} and ${second}`, edits: [...a.edits, ...b.edits], safe: false };
}
