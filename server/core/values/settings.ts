import type { Part } from '../model/machine.ts';
import { type Machine, partsWithSheets } from '../model/resolve.ts';
import { expectationOf } from '../model/setting-value.ts';
import { keyedIn, numberKeyed } from '../model/settings.ts';
import type { Setting } from '../model/sheet.ts';
import { raiseToStep, roundingDrift, roundingError, roundToDecimals } from '../motion/rounding.ts';
import { findUnit, fromSi, toSi } from '../units/index.ts';
import { type Collector, constantInput, inputOf } from './collect.ts';
import { type Derived, type Input, inputFrom } from './derived.ts';

/** What the definition wants of a setting: a value in SI units, and what it follows from. */
interface Wanted {
  readonly si: number;
  readonly from: Input;
  /** `exact` settings must be equal up to their rounding; `least` ones may be larger. */
  readonly rule: 'exact' | 'least';
}

/** The direction lead is set a fifth longer than what the drive asks for, so that the margin is not eaten by tolerances. */
const LEAD_RESERVE = 1.2;

/** Settings as they are and as they should be, and what their rounding costs. */
export function deriveSettings(machine: Machine, values: ReadonlyMap<string, Derived>, out: Collector): void {
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const setting of sheet.settings.values()) deriveSetting(machine, part, setting, values, out);
  }
}

function deriveSetting(
  machine: Machine,
  part: Part,
  setting: Setting,
  values: ReadonlyMap<string, Derived>,
  out: Collector,
): void {
  const unit = unitOf(setting);
  if (unit === undefined) return;
  const base = `settings.${part.name}.${setting.name}`;
  const keyed = keyedIn(machine.file, part, setting);
  const value = keyed && numberKeyed(keyed);
  const now =
    keyed && value !== undefined
      ? out.add({
          address: `${base}.now`,
          unit,
          formula: `{${setting.name}}`,
          inputs: [
            { name: setting.name, value, shown: keyed.scalar.text, file: keyed.file, at: keyed.scalar },
          ],
          si: value,
          source: keyed.origin === 'set' ? 'as set in the machine' : 'as the part is delivered',
        })
      : undefined;
  const wanted = wantedOf(machine, part, setting, values);
  if (!wanted) return;
  const rounded = roundForSetting(setting, wanted, unit);
  const derived = out.add({
    address: `${base}.wanted`,
    unit,
    formula: `{${wanted.from.name}}${rounded.how}`,
    inputs: [wanted.from],
    si: rounded.si,
    source:
      wanted.rule === 'exact'
        ? 'follows from the definition, rounded as the part shows it'
        : 'a fifth more than the drive asks for, in the setting’s steps',
  });
  if (derived && now && setting.is === 'pulses-per-length' && setting.axis)
    deriveRounding(machine, setting.axis, now, wanted, out);
}

/** The unit in which a setting is shown; undefined for words, which are not numbers. */
function unitOf(setting: Setting): string | undefined {
  const expected = expectationOf(setting);
  if (expected === undefined) return undefined;
  return expected === 'count' ? '1' : expected.units[0];
}

function wantedOf(
  machine: Machine,
  part: Part,
  setting: Setting,
  values: ReadonlyMap<string, Derived>,
): Wanted | undefined {
  const axis = setting.axis;
  const exact = (from: Input | undefined): Wanted | undefined =>
    from && { si: from.value, from, rule: 'exact' };
  const derivedInput = (address: string, name: string) => {
    const value = values.get(address);
    return value && inputFrom(value, name);
  };
  const ofAxis = (key: string, name: string, path?: string): Input | undefined => {
    const fields = axis === undefined ? undefined : machine.axes.get(axis)?.fields;
    const given = (path ? fields?.child(path) : fields)?.quantity(key);
    return given && inputOf(name, given, machine.file);
  };
  switch (setting.is) {
    case 'pulses-per-length':
      return axis === undefined
        ? undefined
        : exact(derivedInput(`axes.${axis}.pulses-per-length`, `pulses per length of ${axis}`));
    case 'travel':
      return exact(ofAxis('travel', `travel of ${axis}`));
    case 'acceleration':
      return exact(ofAxis('acceleration', `acceleration of ${axis}`));
    case 'top-feed':
      return exact(ofAxis('feed', `feed of ${axis}`));
    case 'home-feed':
      return exact(ofAxis('feed', `homing feed of ${axis}`, 'homing'));
    case 'home-creep':
      return exact(ofAxis('creep', `homing creep of ${axis}`, 'homing'));
    case 'spindle-top-speed': {
      const given = machine.fields.child('spindle').quantity('top-speed');
      return exact(given && inputOf('top speed of the spindle', given, machine.file));
    }
    case 'direction-lead':
      return leadWanted(machine, part, setting, values);
    default:
      return undefined;
  }
}

/** The longest lead that a drive on this controller asks for; a controller may have one setting for all its axes. */
function leadWanted(
  machine: Machine,
  part: Part,
  setting: Setting,
  values: ReadonlyMap<string, Derived>,
): Wanted | undefined {
  let longest: Wanted | undefined;
  for (const axis of machine.axes.keys()) {
    if (setting.axis !== undefined && setting.axis !== axis) continue;
    const margin = values.get(`axes.${axis}.timing.lead-margin`);
    const given = margin?.inputs[0];
    if (!margin || !given || !part.sheet || !belongsTo(given, part, setting, machine)) continue;
    const asked = given.value - margin.si; // what the drive asks for, with the skew of its inputs
    const from = constantInput(`lead asked for on ${axis}`, asked, `${Math.round(asked * 1e9)} ns`);
    if (!longest || asked * LEAD_RESERVE > longest.si)
      longest = { si: asked * LEAD_RESERVE, from, rule: 'least' };
  }
  return longest;
}

function belongsTo(given: Input, part: Part, setting: Setting, machine: Machine): boolean {
  const keyed = keyedIn(machine.file, part, setting);
  return keyed !== undefined && given.at === keyed.scalar;
}

/** Rounds to what the part can show: its decimals, or its steps, never below what is needed. */
function roundForSetting(setting: Setting, wanted: Wanted, unitSymbol: string): { si: number; how: string } {
  const unit = findUnit(unitSymbol);
  if (!unit) return { si: wanted.si, how: '' };
  const shown = fromSi(wanted.si, unit);
  if (wanted.rule === 'least') {
    const step = setting.fields.text('step')?.value;
    const parsed = step === undefined ? undefined : Number.parseFloat(step);
    const stepUnit = step === undefined ? undefined : findUnit(step.replace(/^[\d.\s]+/, ''));
    const size = parsed !== undefined && stepUnit ? fromSi(toSi(parsed, stepUnit), unit) : undefined;
    if (size === undefined) return { si: wanted.si, how: ' × 1.2' };
    return { si: toSi(raiseToStep(shown, size), unit), how: ` × 1.2, raised to the next ${step}` };
  }
  const decimals = setting.fields.count('decimals')?.value;
  if (decimals === undefined) return { si: wanted.si, how: '' };
  return { si: toSi(roundToDecimals(shown, decimals), unit), how: ` rounded to ${decimals} decimals` };
}

/** What it costs that the part keeps only so many decimals of the pulses per length. */
function deriveRounding(machine: Machine, axis: string, now: Derived, wanted: Wanted, out: Collector): void {
  const keyed = inputFrom(now, 'keyed in');
  const exact = { ...wanted.from, name: 'exact' };
  const base = `axes.${axis}`;
  const error = out.add({
    address: `${base}.rounding-error`,
    unit: 'ppm',
    formula: '({keyed in} − {exact}) / {exact}',
    inputs: [keyed, exact],
    si: roundingError(keyed.value, exact.value),
    source: 'definition of the relative error',
  });
  const travel = machine.axes.get(axis)?.fields.quantity('travel');
  if (!error || !travel) {
    out.lack(`${base}.rounding-drift`, 'the travel of the axis');
    return;
  }
  const length = inputOf('travel', travel, machine.file);
  out.add({
    address: `${base}.rounding-drift`,
    unit: /deg|rad/.test(now.unit) ? 'deg' : 'um',
    formula: '{travel} × {rounding error}',
    inputs: [length, inputFrom(error, 'rounding error')],
    si: roundingDrift(keyed.value, exact.value, length.value),
    source: 'the relative error over the full travel',
  });
}
