import { type Nets, netsOf } from '../circuits/nets.ts';
import { later, said, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import { type Machine, partsOf } from '../model/resolve.ts';
import { expectationOf } from '../model/setting-value.ts';
import { type Keyed, keyedIn } from '../model/settings.ts';
import type { Setting } from '../model/sheet.ts';
import { type Collector, keyedInput } from './collect.ts';
import type { Derived } from './derived.ts';
import { inputFrom } from './input.ts';
import { sectionOver } from './piece.ts';
import { deriveDrift } from './setting-drift.ts';
import { roundForSetting } from './setting-rounding.ts';
import { wantedOf } from './setting-wanted.ts';
import { wordWanted } from './setting-words.ts';
import type { Wanted } from './wanted.ts';

/** Settings as they are and as they should be, and what their rounding costs. */
export const deriveSettings = sectionOver(partsOf, deriveSettingsOf);

function deriveSettingsOf(machine: Machine, part: Part, out: Collector): void {
  const nets = netsOf(machine);
  for (const setting of part.sheet?.settings.values() ?? []) {
    if (setting.is === undefined || setting.is === 'none') continue;
    const unit = unitOf(setting);
    if (unit === undefined) deriveWord(machine, nets, part, setting, out);
    else deriveNumber(machine, nets, part, setting, unit, out);
  }
}

function deriveNumber(
  machine: Machine,
  nets: Nets,
  part: Part,
  setting: Setting,
  unit: string,
  out: Collector,
): void {
  const address = `settings.${part.name}.${setting.name}`;
  const keyed = keyedIn(machine.file, part, setting);
  const now = keyed && addNow(`${address}.now`, keyed, unit, out);
  const wanted = wantedOf(machine, nets, part, setting, out);
  if (!wanted) return;
  const derived = addWanted(address, setting, unit, wanted, now, out);
  if (derived && now && setting.is === 'pulses-per-length' && setting.axis)
    deriveDrift(machine, setting.axis, now, wanted, out);
}

function addNow(address: string, keyed: Keyed, unit: string, out: Collector): Derived | undefined {
  const input = keyedInput(keyed.setting.name, keyed);
  return (
    input &&
    out.add({
      address,
      unit,
      formula: `{${keyed.setting.name}}`,
      inputs: [input],
      si: input.value,
      source: keyed.origin === 'set' ? say`as set in the machine` : say`as the part is delivered`,
    })
  );
}

function addWanted(
  address: string,
  setting: Setting,
  unit: string,
  wanted: Wanted,
  now: Derived | undefined,
  out: Collector,
): Derived | undefined {
  const base = { address: `${address}.wanted`, unit, inputs: wanted.inputs };
  if (now && isSafe(now.si, wanted)) {
    const bound = wanted.rule === 'least' ? 'at least' : 'at most';
    return out.add({
      ...base,
      formula: `{${setting.name}}`,
      inputs: [inputFrom(now, setting.name), ...wanted.inputs],
      si: now.si,
      source: say`as it is; ${bound} the ${said(wanted.inputs[0]?.name ?? later`same`)} is wanted: ${wanted.source}`,
    });
  }
  const rounded = roundForSetting(setting, wanted, unit);
  if (rounded === undefined) {
    out.lack(base.address, say`a setting that goes ${wanted.rule === 'most' ? 'low' : 'far'} enough`);
    return undefined;
  }
  return out.add({
    ...base,
    formula: rounded.how === '' ? wanted.formula : `${wanted.formula}, ${rounded.how}`,
    si: rounded.si,
    ...(rounded.how !== '' && { rounding: rounded.how }),
    ...(rounded.isHeld === true && { beyond: wanted.si }),
    source: wanted.source,
  });
}

/** A setting with a bound on one side only is left alone while it keeps it. */
function isSafe(now: number, { rule, si }: Wanted): boolean {
  const slack = 1e-9 * Math.abs(si);
  return (rule === 'least' && now >= si - slack) || (rule === 'most' && now <= si + slack);
}

function deriveWord(machine: Machine, nets: Nets, part: Part, setting: Setting, out: Collector): void {
  const address = `settings.${part.name}.${setting.name}`;
  const place = (word: string) => setting.choices.indexOf(word);
  const keyed = keyedIn(machine.file, part, setting);
  if (keyed && place(keyed.scalar.text) >= 0) {
    const word = keyed.scalar.text;
    out.add({
      address: `${address}.now`,
      unit: '1',
      word,
      formula: `{${setting.name}}`,
      inputs: [{ name: setting.name, value: place(word), shown: word, file: keyed.file, at: keyed.scalar }],
      si: place(word),
      source: keyed.origin === 'set' ? say`as set in the machine` : say`as the part is delivered`,
    });
  }
  const wanted = wordWanted(machine, nets, part, setting);
  if (!wanted || place(wanted.word) < 0) return;
  out.add({
    address: `${address}.wanted`,
    unit: '1',
    word: wanted.word,
    formula: wanted.inputs.map(({ name }) => `{${name}}`).join(', '),
    inputs: wanted.inputs,
    si: place(wanted.word),
    source: wanted.source,
  });
}

/** The unit in which a setting is shown; undefined for words, which are not numbers. */
function unitOf(setting: Setting): string | undefined {
  const expected = expectationOf(setting);
  if (expected === undefined) return undefined;
  return expected === 'count' ? '1' : expected.units[0];
}
