import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import type { AxisEntry, Part } from '../model/machine.ts';
import { settingsMeaning } from '../model/settings.ts';
import { axisId } from '../summary/place-ids.ts';
import { controllerOf, isRotary } from '../values/axis-parts.ts';
import { showBriefly } from '../values/derived.ts';
import { type TrialMoves, trialMoves } from './axis-moves.ts';
import { idsOf, makeStep } from './make-step.ts';
import type { Step } from './step.ts';

/** An axis with what its steps need. */
interface Trial {
  readonly axis: AxisEntry;
  readonly controller: Part | undefined;
  readonly moves: TrialMoves;
  readonly vertical: boolean;
}

/** Directions, limit switches, scales and homing of all axes, as far as their travel and feed are written down. */
export function axisSteps(analysis: MachineAnalysis, before: readonly Step[]): Step[] {
  const after = idsOf(before, 'emergency-stop', 'supplies', 'settings');
  const trials = readTrials(analysis);
  const directions = trials.map((trial) => directionStep(trial, [...after, ...inputsOf(before, trial.axis)]));
  const limits = trials.flatMap((trial) => limitSteps(trial, idsOf(before, 'inputs')));
  const scales = trials.flatMap((trial) => [scaleStep(analysis, trial, limits), ...backlashSteps(trial)]);
  // What stands upright goes first, so that nothing is in the way when the others travel.
  const homed = trials.toSorted((a, b) => Number(b.vertical) - Number(a.vertical));
  const homing = homed.flatMap((trial, index) => homingStep(analysis, trial, homed.slice(0, index)));
  return [...directions, ...limits, ...scales, ...homing];
}

function readTrials({ machine }: MachineAnalysis): Trial[] {
  return [...machine.axes.values()].flatMap((axis) => {
    const moves = trialMoves(axis, isRotary(axis.name));
    if (!moves) return [];
    const incline = axis.fields.quantity('incline')?.value.value ?? 0;
    return {
      axis,
      moves,
      controller: controllerOf(machine, axis.name),
      vertical: Math.abs(incline) > Math.PI / 6,
    };
  });
}

/** The limit and home inputs of an axis are proved before it moves. */
function inputsOf(steps: readonly Step[], { name }: AxisEntry): string[] {
  const own = new RegExp(`^(?:limit|home) ${name}\\b`);
  return steps.filter(({ stage, title }) => stage === 'inputs' && own.test(title)).map(({ id }) => id);
}

function settingsFor({ controller, axis }: Trial, ...meanings: readonly string[]): string[] {
  if (!controller) return [];
  return meanings
    .flatMap((is) => settingsMeaning(controller, is, { axis: axis.name }))
    .map(({ name }) => `${controller.name}.${name}`);
}

function directionStep(trial: Trial, after: readonly string[]): Step {
  const { axis, moves, vertical } = trial;
  const settings = settingsFor(trial, 'direction-sense');
  const several = axis.motors.length > 1;
  return makeStep({
    id: `direction:${axis.name}`,
    stage: 'directions',
    title: say`${axis.name} moves the right way`,
    act: say`From the middle of its travel, move ${axis.name} by +${moves.jog} at ${moves.slowly}, and back.`,
    expected: [{ when: `+${moves.jog}`, shown: say`towards its far end` }],
    remedy: say`${settings.length > 0 ? say`Change ${settings.join(say` or `)}` : 'Exchange the two wires of one motor phase, with the power off'}. No move: enable, pulse, supply. Buzzing: a phase is open or crossed.`,
    settings,
    cautions: [
      ...(vertical ? [say`${axis.name} may drop when its drive is off: support it.`] : []),
      ...(several
        ? [say`Its motors must turn alike: uncouple all but one first, or they rack the machine.`]
        : []),
    ],
    place: axisId(axis.name),
    after,
  });
}

function limitSteps(trial: Trial, after: readonly string[]): Step[] {
  const { axis, moves } = trial;
  const switches = axis.fields.child('switches');
  const ends = (['far', 'near'] as const).flatMap((end) => {
    const name = switches.text(end)?.value;
    return name === undefined ? [] : [{ end, name }];
  });
  if (ends.length === 0) return [];
  return [
    makeStep({
      id: `limits:${axis.name}`,
      stage: 'limits',
      title: say`${axis.name} stops at its limit switches`,
      act: say`While ${axis.name} moves slowly (${moves.slowly}) in the middle of its travel, operate by hand ${ends.map(({ end, name }) => `${name} (${end})`).join(say` and `)}; then let it run onto each of them.`,
      expected: ends.map(({ name }) => ({ when: say`${name} operated`, shown: say`${axis.name} stops` })),
      remedy: say`Stop. The input is not in use, its sense is the wrong way round, or far and near are exchanged.`,
      place: axisId(axis.name),
      after: [...after, `direction:${axis.name}`],
    }),
  ];
}

function scaleStep({ values }: MachineAnalysis, trial: Trial, limits: readonly Step[]): Step {
  const { axis, moves } = trial;
  const settings = settingsFor(trial, 'pulses-per-length');
  const scale = values.byAddress.get(`axes.${axis.name}.pulses-per-length`);
  return makeStep({
    id: `scale:${axis.name}`,
    stage: 'scales',
    title: say`${axis.name} moves as far as it is told`,
    act: say`Move ${axis.name} by ${moves.long}, coming from the same side at both ends, and measure the move as exactly as you can.`,
    expected: [
      {
        when: '',
        shown: moves.long,
        tolerance: say`what your measurement may be off by: a smaller error is no reason to change anything`,
      },
    ],
    remedy: say`Write the record; the corrected ${settings.join(', ') || 'pulses per length'} is then worked out${scale ? say` (computed: ${scale.shown})` : ''}. Twice or half as far: microsteps or lead.`,
    settings,
    place: axisId(axis.name),
    after: [
      `direction:${axis.name}`,
      ...limits.map(({ id }) => id).filter((id) => id === `limits:${axis.name}`),
    ],
    record: `{ date: ?, axis: ${axis.name}, asked: ${moves.long}, seen: ?, within: ? }`,
  });
}

/** The play of an axis whose controller can make up for it. */
function backlashSteps(trial: Trial): Step[] {
  const { axis, moves } = trial;
  const settings = settingsFor(trial, 'backlash');
  if (settings.length === 0) return [];
  return [
    makeStep({
      id: `backlash:${axis.name}`,
      stage: 'scales',
      title: say`${axis.name} turns round without play`,
      act: say`Move ${axis.name} by +${moves.jog} onto a dial gauge and set it to zero; move it by +${moves.jog} and back by −${moves.jog}, and read the gauge.`,
      expected: [{ when: '', shown: say`back to zero`, tolerance: say`what your measurement may be off by` }],
      remedy: say`Write the record; what ${settings.join(', ')} has to make up for is then worked out. Play is better taken out of the mechanics than made up for.`,
      settings,
      place: axisId(axis.name),
      after: [`scale:${axis.name}`],
      record: `{ date: ?, axis: ${axis.name}, backlash: ?, within: ? }`,
    }),
  ];
}

function homingStep({ values }: MachineAnalysis, trial: Trial, before: readonly Trial[]): Step[] {
  const { axis, vertical } = trial;
  const home = axis.fields.child('switches').text('home')?.value;
  const feed = axis.fields.child('homing').text('feed')?.value;
  if (home === undefined) return [];
  const overrun = values.byAddress.get(`axes.${axis.name}.homing-overrun`);
  const resolution = values.byAddress.get(`axes.${axis.name}.resolution`);
  return [
    makeStep({
      id: `homing:${axis.name}`,
      stage: 'homing',
      title: say`${axis.name} finds home`,
      act: say`Home ${axis.name}${feed === undefined ? '' : say` at ${feed}`}, first from close by with the switch operated by hand, then from afar; repeat three times and compare.`,
      expected: [
        { when: '', shown: say`stops on ${home}` },
        ...(overrun ? [{ when: say`past the switch`, shown: say`about ${showBriefly(overrun)}` }] : []),
        ...(resolution
          ? [
              {
                when: say`spread of three`,
                shown: say`a few times ${showBriefly(resolution)}`,
                tolerance: say`common practice, no source`,
              },
            ]
          : []),
      ],
      remedy: say`Away from the switch: the homing direction. Past it: the input or the homing feed. A wide spread: a slower last approach.`,
      settings: settingsFor(trial, 'home-feed', 'home-creep'),
      cautions: vertical
        ? []
        : before
            .filter((each) => each.vertical)
            .map((each) => say`${each.axis.name} is up before ${axis.name} travels.`),
      place: axisId(axis.name),
      after: [
        `scale:${axis.name}`,
        ...before.filter((each) => each.vertical).map((each) => `homing:${each.axis.name}`),
      ],
    }),
  ];
}
