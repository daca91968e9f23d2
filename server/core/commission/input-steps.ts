import type { MachineAnalysis } from '../analysis.ts';
import { sayLevel } from '../circuits/solve/level-words.ts';
import { stopDevices } from '../findings/safety/stop-devices.ts';
import { later, said, say } from '../language/say.ts';
import { sayRole } from '../model/role.ts';
import { settingsMeaning } from '../model/settings.ts';
import type { Circuit } from '../model/sheet.ts';
import { terminalId } from '../model/terminal-id.ts';
import { partId, terminalPlaceId } from '../summary/place-ids.ts';
import { type InputRow, inputTable, type TableCell } from '../values/input-table.ts';
import { idsOf, makeStep } from './make-step.ts';
import type { Expected, Step } from './step.ts';

/**
 * Each emergency stop device: what must lose its power, and that nothing comes back by itself. What hangs behind a relay
 * is measured as well: its coil may be dead while a contact has welded.
 */
export function stopSteps(analysis: MachineAnalysis, before: readonly Step[]): Step[] {
  return stopDevices(analysis).map(({ part, cuts, behind, tells }) => {
    const dead = [...new Set([...cuts, ...behind])];
    const circuits = dead.map((name) => circuitNamed(analysis, name));
    return makeStep({
      id: `stop:${part.name}`,
      stage: 'emergency-stop',
      title: say`${part.name} takes the power away`,
      act: say`Switch everything on, press ${part.name}, measure what it cuts; then release it, and see that nothing comes back before it is switched on again.`,
      terminals: dead.length > 0 ? [...new Set(circuits.flatMap(({ terminals }) => terminals))] : tells,
      expected: [
        ...dead.map((name) => ({ when: say`pressed, ${name}`, shown: say`without power` })),
        { when: say`released`, shown: say`still without power` },
      ],
      remedy:
        cuts.length > 0
          ? say`Do not go on. The contact belongs in the coil circuit of what feeds drives and spindle.`
          : say`Do not go on: it only tells a controller, which is not an emergency stop. It must cut the power itself.`,
      cautions: [
        say`How fast the machine stops, and whether that is enough, is for a licensed person to judge.`,
        ...(circuits.some(({ isOnMains }) => isOnMains)
          ? [
              say`A contact that has welded leaves the mains on what is behind it: measure as if it were live.`,
            ]
          : []),
      ],
      place: partId(part.name),
      after: idsOf(before, 'supplies'),
    });
  });
}

/** The terminals of a circuit named as `part.circuit`, and whether the mains come to them. */
function circuitNamed(
  { machine }: MachineAnalysis,
  name: string,
): { terminals: string[]; isOnMains: boolean } {
  const dot = name.indexOf('.');
  const part = name.slice(0, dot);
  const circuit = machine.parts.get(part)?.sheet?.circuits.get(name.slice(dot + 1));
  return {
    terminals: circuit?.ends.map((end) => terminalId(part, end.text)) ?? [],
    isOnMains: circuit?.kind === 'mains-in' || circuit?.kind === 'three-phase-in',
  };
}

/** Each input by name, with the level that a meter must show at rest and operated. */
export function inputSteps(analysis: MachineAnalysis, before: readonly Step[]): Step[] {
  const after = idsOf(before, 'emergency-stop', 'supplies');
  return inputTable(analysis.machine, analysis.nets)
    .filter(
      ({ inUse, does, actor }) =>
        inUse && does !== '' && actor !== undefined && !isFromOutput(analysis, actor),
    )
    .map((row) => inputStep(analysis, row, after));
}

/** Signals between parts are not tried by hand; the axes and the spindle try them. */
function isFromOutput({ machine }: MachineAnalysis, actor: string): boolean {
  return !machine.parts.has(actor) && !/switch|handwheel|select/.test(roleOf(machine.parts, actor));
}

function roleOf(parts: MachineAnalysis['machine']['parts'], actor: string): string {
  const dot = actor.indexOf('.');
  return parts.get(actor.slice(0, dot))?.sheet?.circuits.get(actor.slice(dot + 1))?.does?.word ?? '';
}

function inputStep({ machine }: MachineAnalysis, row: InputRow, after: readonly string[]): Step {
  const part = machine.parts.get(row.part);
  const circuit = part?.sheet?.circuits.get(row.circuit);
  const settingsFor = (is: string) =>
    part ? settingsMeaning(part, is, { circuit: row.circuit }).map(({ name }) => `${row.part}.${name}`) : [];
  const [sense] = settingsFor('input-sense');
  const thresholds = circuit ? thresholdsOf(circuit) : undefined;
  const wrongWay = sense === undefined ? '' : say` Shown the wrong way round on the panel: ${sense}.`;
  return makeStep({
    id: `input:${row.part}.${row.terminal}`,
    stage: 'inputs',
    title: `${sayRole(row.does)} (${row.part}.${row.terminal})`,
    act: sayAct(row, circuit),
    terminals: circuit?.ends.map((end) => terminalId(row.part, end.text)) ?? [],
    expected: [
      ...expectedOf(say`at rest`, row.rest, thresholds),
      ...(row.operated ? expectedOf(say`operated`, row.operated, thresholds) : []),
      ...(row.broken ? expectedOf(say`${row.broken.wire} taken off`, row.broken, thresholds) : []),
    ],
    remedy: say`Another level: follow the wires from ${row.actor ?? 'the switch'} to ${row.part}.${row.terminal}.${wrongWay}`,
    settings: [...settingsFor('input-use'), ...settingsFor('input-sense')],
    place: terminalPlaceId(row.part, row.terminal),
    after,
  });
}

/** A current is measured in its wire: a meter for current that is held across an input joins its two sides. */
function sayAct({ actor }: InputRow, circuit: Circuit | undefined): string {
  return circuit?.kind === 'opto-in'
    ? say`Watch it on the panel, or take one wire off the input and measure the current between the two (never from one terminal to the other, which is a short circuit), and operate ${actor ?? 'what is wired to it'} by hand.`
    : say`Measure at the input, or watch it on the panel, and operate ${actor ?? 'what is wired to it'} by hand.`;
}

function expectedOf(
  when: string,
  { shown, level, acts }: TableCell,
  thresholds: string | undefined,
): Expected[] {
  if (shown === '' || level === 'unknown') return [];
  const words =
    acts === undefined ? sayLevel(level) : `${sayLevel(level)}, ${acts ? say`acts` : say`does not act`}`;
  const tolerance = thresholds === undefined ? {} : { tolerance: thresholds };
  return [{ when, shown: `${shown} (${words})`, ...tolerance }];
}

/** From where to where an input is on and off, by its sheet. */
function thresholdsOf({ figures }: Circuit): string | undefined {
  const found = [...THRESHOLDS].flatMap(([key, words]) => {
    const value = figures.text(key)?.value;
    return value === undefined ? [] : `${said(words)} ${value}`;
  });
  return found.length > 0 ? found.join(', ') : undefined;
}

/** The thresholds of a sheet by their keys. */
const THRESHOLDS = new Map([
  ['on-above', later`on above`],
  ['on-below', later`on below`],
  ['on-at', later`on at`],
  ['off-above', later`off above`],
  ['off-below', later`off below`],
  ['off-at', later`off at`],
]);
