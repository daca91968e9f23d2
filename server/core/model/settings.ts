import type { Scalar } from '../syntax/node.ts';
import type { FileId } from '../world.ts';
import type { Part } from './machine.ts';
import { readSettingCount, readSettingQuantity } from './setting-value.ts';
import type { Setting } from './sheet.ts';

/** What a setting of a part stands at: set in the machine, or as its maker delivers it. */
export interface Keyed {
  readonly part: Part;
  readonly setting: Setting;
  readonly scalar: Scalar;
  /** The file that the value stands in: the machine's, or the sheet's for a default. */
  readonly file: FileId;
  readonly origin: 'set' | 'default';
}

/** The settings of a part with a meaning, where given for an axis or a circuit only. */
export function settingsMeaning(
  part: Part,
  is: string,
  of: { axis?: string; circuit?: string } = {},
): Setting[] {
  return [...(part.sheet?.settings.values() ?? [])].filter(
    (setting) =>
      setting.is === is &&
      (of.axis === undefined || setting.axis === undefined || setting.axis === of.axis) &&
      (of.circuit === undefined || setting.circuit === of.circuit),
  );
}

/** What a setting stands at; undefined when it is neither set nor has a default. */
export function keyedIn(machineFile: FileId, part: Part, setting: Setting): Keyed | undefined {
  const assigned = part.assigned.get(setting.name)?.value;
  if (assigned) return { part, setting, scalar: assigned, file: machineFile, origin: 'set' };
  if (!setting.initial || !part.sheet) return undefined;
  return { part, setting, scalar: setting.initial, file: part.sheet.file, origin: 'default' };
}

/** What the first setting with this meaning stands at. */
export function keyedInMeaning(
  machineFile: FileId,
  part: Part,
  is: string,
  of: { axis?: string; circuit?: string } = {},
): Keyed | undefined {
  for (const setting of settingsMeaning(part, is, of)) {
    const keyed = keyedIn(machineFile, part, setting);
    if (keyed) return keyed;
  }
  return undefined;
}

/** The SI value or the whole number that is keyed in; undefined for words and for what cannot be read. */
export function numberKeyed(keyed: Keyed): number | undefined {
  return (
    readSettingQuantity(keyed.setting, keyed.scalar).value?.value ??
    readSettingCount(keyed.setting, keyed.scalar)
  );
}
