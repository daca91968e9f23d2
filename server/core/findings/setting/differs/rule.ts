import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { partsWithSheets } from '../../../model/resolve.ts';
import { type Keyed, keyedIn } from '../../../model/settings.ts';
import type { Data, Related } from '../../../problem.ts';
import { formatNumber, toUnit } from '../../../units/index.ts';
import type { Derived, Input } from '../../../values/derived.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'setting/differs',
  severity: 'warning',
  title: 'A setting differs from what the definition makes of it',
  find: findDiffering,
  say: (data) => {
    const [part, setting] = [word(data, 'part'), word(data, 'setting')];
    const start =
      data.origin === 'set'
        ? `${setting} of ${part} says ${word(data, 'now')}`
        : `${setting} of ${part} is not set and stands at ${word(data, 'now')} as delivered`;
    const causes = wordList(data, 'causes');
    const comes =
      word(data, 'from') === 'scale'
        ? `${joinWords(causes, 'and')} make ${word(data, 'wanted')}`
        : `the ${joinWords(causes, 'and')} ask for ${word(data, 'wanted')}`;
    return `${start}, but ${causes.length === 1 ? comes.replace(' make ', ' makes ').replace(' ask for ', ' asks for ') : comes}${consequence(data)}. Set it to ${word(data, 'wanted')}.`;
  },
};

const TIMES: Readonly<Record<string, string>> = { '0.5': 'half', '2': 'twice' };

/** What the difference does to the machine, with the figures. */
function consequence(data: Data): string {
  const ratio = word(data, 'ratio');
  if (ratio === '') return '';
  if (data.from === 'scale') return `: moves would come out ${TIMES[ratio] ?? `${ratio} times`} as long`;
  return '';
}

/** Pulse times are judged by the timing findings and currents by those of motion, with what they do to the parts. */
const JUDGED_ELSEWHERE: ReadonlySet<string> = new Set(['direction-lead', 'pulse-width', 'phase-current']);

function* findDiffering(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { part, sheet } of partsWithSheets(analysis.machine)) {
    for (const setting of sheet.settings.values()) {
      if (JUDGED_ELSEWHERE.has(setting.is ?? '')) continue;
      const keyed = keyedIn(analysis.machine.file, part, setting);
      const found = keyed && compare(analysis, keyed);
      if (found) yield found;
    }
  }
}

function compare(analysis: MachineAnalysis, keyed: Keyed): Found | undefined {
  const base = `settings.${keyed.part.name}.${keyed.setting.name}`;
  const now = analysis.values.byAddress.get(`${base}.now`);
  const wanted = analysis.values.byAddress.get(`${base}.wanted`);
  if (!now || !wanted || !differs(keyed, now, wanted)) return undefined;
  if (isFaulty(analysis, keyed.scalar) || restsOnFault(analysis, wanted)) return undefined;
  // What a measurement corrects is said beside the measurement.
  if (wanted.inputs[0]?.address?.endsWith('.corrected-pulses-per-length')) return undefined;
  const change = changeSetting(analysis, keyed, wanted.word ?? wanted.si);
  const leaves = leavesOf(analysis, wanted);
  const isScale = keyed.setting.is === 'pulses-per-length';
  const isSet = keyed.origin === 'set';
  return {
    at: isSet ? keyed.scalar : keyed.part.key,
    data: {
      part: keyed.part.name,
      setting: keyed.setting.name,
      origin: keyed.origin,
      now: keyed.scalar.text,
      wanted: change.text,
      from: isScale ? 'scale' : 'given',
      causes: leaves.map((leaf) => describeCause(leaf, isScale)),
      ...(isScale && { ratio: formatNumber(now.si / wanted.si, 4) }),
    },
    related: [...leaves, ...(isSet ? [] : now.inputs)].flatMap((leaf) => relatedTo(analysis, leaf)),
    fixes: change.fix ? [change.fix] : [],
  };
}

/** More than half of the last decimal off; without decimals, more than doubles leave over. */
function differs({ setting }: Keyed, now: Derived, wanted: Derived): boolean {
  const decimals = setting.fields.count('decimals')?.value;
  const off = Math.abs(toUnit(now.si, now.unit) - toUnit(wanted.si, now.unit));
  return off > (decimals === undefined ? 1e-9 * Math.abs(wanted.value) : 0.5 * 10 ** -decimals * (1 + 1e-9));
}

/** What a value follows from in the end: the figures that somebody wrote down. */
function leavesOf(analysis: MachineAnalysis, value: Derived): Input[] {
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

function describeCause(leaf: Input, isScale: boolean): string {
  return isScale ? `${leaf.name} ${leaf.shown}` : leaf.name;
}

function relatedTo({ file }: MachineAnalysis, leaf: Input): Related[] {
  if (!leaf.at) return [];
  return [
    {
      ...(leaf.file === undefined || leaf.file === file ? {} : { file: leaf.file }),
      at: leaf.at,
      note: `${leaf.name} ${leaf.shown}`,
    },
  ];
}
