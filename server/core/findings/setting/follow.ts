import type { MachineAnalysis } from '../../analysis.ts';
import { groupBy } from '../../group.ts';
import { say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import { partsOf } from '../../model/resolve.ts';
import { type Keyed, keyedIn } from '../../model/settings.ts';
import type { Setting } from '../../model/sheet.ts';
import type { Edit, Fix } from '../../problem.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import type { Span } from '../../syntax/node.ts';
import { toUnit } from '../../units/index.ts';
import type { Derived, Input } from '../../values/derived.ts';
import { addSettings } from '../common/edits.ts';
import { isFaulty, restsOnFault } from '../common/held-back.ts';
import { changeSetting, type SettingChange } from '../common/setting-edit.ts';
import { isSuspect } from '../common/suspect.ts';

/** A setting that is not what follows from the definition. */
export interface Differing {
  readonly keyed: Keyed;
  readonly now: Derived;
  readonly wanted: Derived;
  readonly change: SettingChange;
}

/** All settings that differ from what follows from the definition, in the order of the parts and their sheets. */
export const findDiffering = fact('analysis', (analysis: MachineAnalysis): readonly Differing[] =>
  differingIn(analysis).flat(),
);

const differingIn = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis, part): readonly Differing[] =>
    [...(part.sheet?.settings.values() ?? [])].flatMap((setting) => {
      const keyed = keyedIn(analysis.machine.file, part, setting);
      return (keyed && compare(analysis, keyed)) ?? [];
    }),
);

function compare(analysis: MachineAnalysis, keyed: Keyed): Differing | undefined {
  const base = `settings.${keyed.part.name}.${keyed.setting.name}`;
  const now = analysis.values.byAddress.get(`${base}.now`);
  const wanted = analysis.values.byAddress.get(`${base}.wanted`);
  if (!now || !wanted) return undefined;
  const differs = settingDiffers(keyed.setting, now, wanted);
  // What stands at the end of a span that does not go as far as it should is still not what follows.
  if (!differs && wanted.beyond === undefined) return undefined;
  if (isFaulty(analysis, keyed.scalar) || restsOnFault(analysis, wanted)) return undefined;
  if (wanted.inputs.some(({ at }) => at && isSuspect(analysis, at))) return undefined;
  // What a measurement corrects is said beside the measurement.
  if (/\.corrected-(?:pulses-per-length|backlash)$/.test(wanted.inputs[0]?.address ?? '')) return undefined;
  const change = changeSetting(analysis, keyed, wanted.word ?? wanted.si);
  return { keyed, now, wanted, change: differs ? change : { text: change.text, fix: undefined } };
}

/** Whether a setting is off by more than half of its last decimal; without decimals, more than doubles leave over. */
export function settingDiffers(setting: Setting, now: Derived, wanted: Derived): boolean {
  if (now.si === wanted.si) return false; // most of them, at every edit
  const decimals = setting.fields.count('decimals')?.value;
  const off = Math.abs(toUnit(now.si, now.unit) - toUnit(wanted.si, now.unit));
  return off > (decimals === undefined ? 1e-9 * Math.abs(wanted.value) : 0.5 * 10 ** -decimals * (1 + 1e-9));
}

/** The cures of one differing setting: itself, and where several differ all of them in one action. */
export function fixesOf(analysis: MachineAnalysis, { change }: Differing): Fix[] {
  if (!change.fix) return [];
  const all = updateAll(analysis);
  return all ? [change.fix, all] : [change.fix];
}

/** Updates every setting that differs; undefined where fewer than two can be updated in this text. */
function updateAll(analysis: MachineAnalysis): Fix | undefined {
  const following = findDiffering(analysis).filter(({ change }) => change.fix);
  if (following.length < 2) return undefined;
  return updateTogether(analysis, following, say`Update all ${following.length} settings that follow`);
}

/** Updates the settings that follow from a figure, wherever they stand; undefined where none differs. */
export function updateFollowing(analysis: MachineAnalysis, isCause: (at: Span) => boolean): Fix | undefined {
  const following = findDiffering(analysis).filter(
    ({ wanted, change }) => change.fix && leavesOf(analysis, wanted).some(({ at }) => at && isCause(at)),
  );
  const [first, second] = following;
  if (!first) return undefined;
  const title = second
    ? say`Update the ${following.length} settings that follow from this`
    : first.change.fix?.title;
  return updateTogether(analysis, following, title ?? '');
}

function updateTogether(analysis: MachineAnalysis, following: readonly Differing[], title: string): Fix {
  const edits: Edit[] = following
    .filter(({ keyed }) => keyed.origin === 'set')
    .flatMap(({ change }) => change.fix?.edits ?? []);
  const unset = following.filter(({ keyed }) => keyed.origin === 'default');
  // Settings that a part gets together make one entry, since it may have no `set:` yet.
  for (const [part, group] of groupBy(unset, ({ keyed }): Part => keyed.part)) {
    const settings = group.map(({ keyed, change }) => ({ name: keyed.setting.name, value: change.text }));
    edits.push(...addSettings(analysis.tree, part, settings));
  }
  return { title, edits, safe: false };
}

/** What a value follows from in the end: the figures that somebody wrote down. */
export function leavesOf(analysis: MachineAnalysis, value: Derived): Input[] {
  const leaves: Input[] = [];
  const walk = (inputs: readonly Input[]): void => {
    for (const input of inputs) {
      const derived = input.address === undefined ? undefined : analysis.values.byAddress.get(input.address);
      if (derived) walk(derived.inputs);
      else if (input.at && !leaves.some((leaf) => leaf.at === input.at)) leaves.push(input);
    }
  };
  walk(value.inputs);
  return leaves;
}
