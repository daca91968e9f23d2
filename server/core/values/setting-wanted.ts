import type { Nets } from '../circuits/nets.ts';
import { later, said, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedIn, keyedInMeaning } from '../model/settings.ts';
import type { Setting } from '../model/sheet.ts';
import { axisNames, movesOf } from './axis-parts.ts';
import { backlashWanted } from './backlash.ts';
import { type Collector, constantInput, figureInput, keyedInput } from './collect.ts';
import { basisOf, inBasis, ratedCurrent } from './current.ts';
import type { Input } from './derived.ts';
import { wheelSignal } from './handwheel-input.ts';
import { scaleWanted } from './records.ts';
import { spindleWanted } from './spindle-settings.ts';
import { takeOver, type Wanted } from './wanted.ts';

/** Pulse times are set a fifth longer than what the drive asks for, so that tolerances do not eat the margin. */
const TIME_RESERVE = 1.2;

/** What the definition wants of a setting that is a number; undefined where nothing follows from it. */
export function wantedOf(
  machine: Machine,
  nets: Nets,
  part: Part,
  setting: Setting,
  out: Collector,
): Wanted | undefined {
  const axis = setting.axis === undefined ? undefined : machine.axes.get(setting.axis);
  const ofAxis = (key: string, name: string, path?: string): Wanted | undefined => {
    const fields = path === undefined ? axis?.fields : axis?.fields.child(path);
    return takeOver(
      fields && figureInput(say`${said(name)} of ${axis?.name}`, fields, key, machine.file),
      'down',
    );
  };
  switch (setting.is) {
    case 'pulses-per-length':
      return axis && takeOver(scaleWanted(axis.name, keyedIn(machine.file, part, setting), out));
    case 'backlash':
      return axis && backlashWanted(axis.name, out);
    case 'travel':
      return ofAxis('travel', later`travel`);
    case 'acceleration':
      return ofAxis('acceleration', later`acceleration`);
    case 'top-feed':
      return ofAxis('feed', later`feed`);
    case 'home-feed':
      return ofAxis('feed', later`homing feed`, 'homing');
    case 'home-creep':
      return ofAxis('creep', later`homing creep`, 'homing');
    case 'direction-lead':
      return timeWanted(machine, part, setting, 'lead', out);
    case 'pulse-width':
      return timeWanted(machine, part, setting, 'on', out);
    case 'phase-current':
      return currentWanted(machine, part);
    case 'microsteps':
    case 'pulses-per-turn':
      return alikeWanted(machine, part, setting.is);
    case 'handwheel-step':
      return wheelStep(machine, nets, part);
    default:
      return spindleWanted(machine, part, setting, out);
  }
}

/** The step of the handwheel, for the part that it is wired to; while it is wired to none, for all. */
function wheelStep(machine: Machine, _nets: Nets, part: Part): Wanted | undefined {
  const met = wheelSignal(machine);
  if (met && met.part !== part) return undefined;
  return takeOver(
    figureInput(later`step of the handwheel`, machine.fields.child('handwheel'), 'step', machine.file),
  );
}

/** The longest time that a drive on this controller asks for; a controller may have one setting for all its axes. */
function timeWanted(
  machine: Machine,
  part: Part,
  setting: Setting,
  name: 'lead' | 'on',
  out: Collector,
): Wanted | undefined {
  const keyed = keyedIn(machine.file, part, setting);
  let longest: Input | undefined;
  for (const axis of axisNames(machine)) {
    if (setting.axis !== undefined && setting.axis !== axis) continue;
    const margin = out.get(`axes.${axis}.timing.${name}-margin`);
    const given = margin?.inputs[0];
    if (!margin || !given || !keyed || given.at !== keyed.scalar) continue;
    const asked = given.value - margin.si; // what the drive asks for, with the skew of its inputs
    if (!longest || asked > longest.value)
      longest = constantInput(
        say`${name === 'lead' ? 'lead' : 'on-time'} asked for on ${axis}`,
        asked,
        `${Math.round(asked * 1e9)} ns`,
      );
  }
  return (
    longest && {
      si: longest.value * TIME_RESERVE,
      formula: `{${longest.name}} × ${TIME_RESERVE}`,
      inputs: [longest],
      rule: 'least',
      towards: 'nearest',
      source: say`a fifth more than the drive asks for (common practice, no source), in the setting’s steps`,
    }
  );
}

/** Motors that move one axis together turn alike, so the others' drives are set like the first. */
function alikeWanted(
  machine: Machine,
  drive: Part,
  is: 'microsteps' | 'pulses-per-turn',
): Wanted | undefined {
  for (const { axis, first, own } of movesOf(machine, drive)) {
    if (!first.drive || first.drive === drive) continue;
    const keyed = keyedInput(
      is === 'microsteps'
        ? say`microsteps of ${first.drive.name}`
        : say`pulses per turn of ${first.drive.name}`,
      keyedInMeaning(machine.file, first.drive, is),
    );
    const [mine, its] = [first.motor, own.motor].map((motor) => motor?.sheet?.facts.quantity('step-angle'));
    // Motors with other steps, or another drive, have to be set apart by somebody who knows both.
    if (!keyed || (is === 'microsteps' && mine?.value.value !== its?.value.value)) return undefined;
    const same = takeOver(keyed);
    return same && { ...same, source: say`${axis} is moved by both, so they turn alike` };
  }
  return undefined;
}

/** The motor's rated current, in the drive's way of stating it; less is allowed, more would overheat the motor. */
function currentWanted(machine: Machine, drive: Part): Wanted | undefined {
  for (const { own } of movesOf(machine, drive)) {
    const { motor } = own;
    const rated = motor && ratedCurrent(motor);
    const input = rated && inBasis(rated, basisOf(drive));
    if (input)
      return {
        si: input.value,
        formula: `{${input.name}}`,
        inputs: [input],
        rule: 'most',
        towards: 'down',
        source: say`datasheet of the motor; peak = √2 × RMS`,
      };
  }
  return undefined;
}
