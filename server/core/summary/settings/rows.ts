import type { MachineAnalysis } from '../../analysis.ts';
import { beyondData, sayEnd } from '../../findings/common/beyond-span.ts';
import { isFaulty, restsOnFault } from '../../findings/common/held-back.ts';
import { changeSetting, writeSetting } from '../../findings/common/setting-edit.ts';
import { word } from '../../findings/common/words.ts';
import { settingDiffers } from '../../findings/setting/follow.ts';
import { later, said, say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import { sayMeaning } from '../../model/meaning.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { type Keyed, keyedIn } from '../../model/settings.ts';
import type { Setting } from '../../model/sheet.ts';
import type { Derived } from '../../values/derived.ts';
import { inputWanted } from './inputs-wanted.ts';
import { whatFollows, whyWanted } from './reasons.ts';

/** How a setting stands against the definition; `free` ones are the user's to choose. */
export type SettingState = 'agrees' | 'differs' | 'not-set' | 'free';

/** One setting of one part, ready to be read, keyed in and ticked off. */
export interface SettingRow {
  readonly part: string;
  readonly setting: string;
  readonly meaning: string;
  /** As it is written or delivered; undefined where neither is the case. */
  readonly now: string | undefined;
  readonly origin: Keyed['origin'] | undefined;
  /** As it would be keyed in; undefined where nothing follows from the definition. */
  readonly wanted: string | undefined;
  readonly state: SettingState;
  /** What asks for the value, with its working; for a free setting what follows from it. */
  readonly why: string;
  /** How the wanted value was rounded, and what that costs over the travel; empty where it is exact. */
  readonly rounding: string;
  /** Where the wanted value's rule comes from, or what a value that is kept comes from. */
  readonly source: string;
}

/** The settings of one part in the part's own order. */
export interface PartSettings {
  readonly part: string;
  readonly title: string;
  readonly rows: readonly SettingRow[];
}

const kept = new WeakMap<MachineAnalysis, readonly PartSettings[]>();

/** The settings sheet: every setting of every part that has some, in the order of the parts and of their sheets. */
export function listSettings(analysis: MachineAnalysis): readonly PartSettings[] {
  let sheet = kept.get(analysis);
  if (!sheet) {
    sheet = partsWithSheets(analysis.machine).flatMap(({ part, sheet: { title, settings } }) =>
      settings.size === 0
        ? []
        : [
            {
              part: part.name,
              title,
              rows: [...settings.values()].map((each) => rowOf(analysis, part, each)),
            },
          ],
    );
    kept.set(analysis, sheet);
  }
  return sheet;
}

function rowOf(analysis: MachineAnalysis, part: Part, setting: Setting): SettingRow {
  const keyed = keyedIn(analysis.machine.file, part, setting);
  const row: SettingRow = {
    part: part.name,
    setting: setting.name,
    meaning: meaningOf(setting),
    now: keyed?.scalar.text,
    origin: keyed?.origin,
    wanted: undefined,
    state: 'free',
    why: '',
    rounding: '',
    source: keyed?.origin === 'default' ? say`as the part is delivered` : '',
  };
  const asked = computed(analysis, part, setting, keyed) ?? inputWanted(analysis, part, setting, keyed);
  if (asked) return { ...row, ...asked };
  const isFault = keyed !== undefined && isFaulty(analysis, keyed.scalar);
  return { ...row, why: isFault ? said(AT_FAULT) : whatFollows(analysis, part, setting, keyed) };
}

/** What a finding rejects must not be told as something to key in. */
const AT_FAULT = later`What it rests on is at fault; see the findings.`;

function meaningOf(setting: Setting): string {
  const { is, axis, circuit, fields } = setting;
  const about = fields.text('about')?.value ?? (is === 'none' ? undefined : sayMeaning(is));
  const of = [axis && say`axis ${axis}`, circuit && sayCircuit(setting, circuit)].filter(Boolean).join(', ');
  const meaning = about ?? sayMeaning('none') ?? '';
  return of === '' ? meaning : `${meaning.replaceAll('`', '').replace(/\.$/, '')} (${of}).`;
}

const OF_INPUT: ReadonlySet<Setting['is']> = new Set(['input-use', 'input-sense']);

function sayCircuit({ is }: Setting, circuit: string): string {
  return OF_INPUT.has(is) ? say`input ${circuit}` : say`circuit ${circuit}`;
}

/** What the derived values say of a setting; undefined where they say nothing. */
function computed(
  analysis: MachineAnalysis,
  part: Part,
  setting: Setting,
  keyed: Keyed | undefined,
): Partial<SettingRow> | undefined {
  const address = `settings.${part.name}.${setting.name}`;
  const { byAddress, missing } = analysis.values;
  const [now, wanted] = [byAddress.get(`${address}.now`), byAddress.get(`${address}.wanted`)];
  if (!wanted) {
    const lacks = missing.get(`${address}.wanted`);
    return lacks && { why: say`It needs ${lacks.needs}.` };
  }
  if (restsOnFault(analysis, wanted)) return { why: said(AT_FAULT) };
  const value = wanted.word ?? wanted.si;
  const isWrong = keyed !== undefined && isFaulty(analysis, keyed.scalar);
  return {
    wanted: keyed ? changeSetting(analysis, keyed, value).text : writeSetting(setting, value),
    state: isWrong ? 'differs' : stateOf(setting, now, wanted),
    why: [whyWanted(analysis, wanted), keyed && sayBeyond(keyed, wanted)].filter(Boolean).join('. '),
    rounding: [wanted.rounding, driftOf(analysis, setting)].filter(Boolean).join('; '),
    source: wanted.source,
  };
}

/** What stands at the end of a span that does not go as far as it should is still not what follows. */
function stateOf(setting: Setting, now: Derived | undefined, wanted: Derived): SettingState {
  if (!now) return 'not-set';
  return wanted.beyond !== undefined || settingDiffers(setting, now, wanted) ? 'differs' : 'agrees';
}

/** What would have to be keyed in and cannot be; empty where the span goes as far. */
function sayBeyond(keyed: Keyed, wanted: Derived): string {
  const data = beyondData(keyed, wanted);
  return data.beyond === undefined ? '' : say`It would have to be ${word(data, 'beyond')}. ${sayEnd(data)}`;
}

/** What the last decimal costs over the whole travel of the axis. */
function driftOf({ values }: MachineAnalysis, { is, axis }: Setting): string | undefined {
  const drift = is === 'pulses-per-length' ? values.byAddress.get(`axes.${axis}.rounding-drift`) : undefined;
  return drift && Math.abs(drift.value) >= 1e-6
    ? say`${drift.shown} over the travel as it stands`
    : undefined;
}
