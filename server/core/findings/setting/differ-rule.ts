import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { said, say } from '../../language/say.ts';
import type { Keyed } from '../../model/settings.ts';
import type { Data, Related } from '../../problem.ts';
import { formatNumber } from '../../units/index.ts';
import type { Input } from '../../values/derived.ts';
import { beyondData, sayEnd } from '../common/beyond-span.ts';
import { joinWords, word, wordList } from '../common/words.ts';
import { differingSpans } from '../level/differing-spans.ts';
import type { Found, Rule } from '../rule.ts';
import { type Differing, findDiffering, fixesOf, leavesOf, settingDiffers } from './follow.ts';

/**
 * Pulse times are judged by the timing findings, currents by those of motion, and what the spindle waits for and
 * listens to by those of the spindle, with what they do to the machine.
 */
const JUDGED_ELSEWHERE: ReadonlySet<string> = new Set([
  'direction-lead',
  'pulse-width',
  'phase-current',
  'spindle-wait',
  'run-source',
  'speed-source',
]);

/** The two findings about settings that differ: those that somebody set, and those that nobody has set yet. */
export function differRule(rule: Pick<Rule, 'code' | 'severity' | 'title'>, origin: Keyed['origin']): Rule {
  return { ...rule, find: (analysis) => find(analysis, origin), say: sayDiffering };
}

function* find(analysis: Analysis, origin: Keyed['origin']): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const differing of findDiffering(analysis)) {
    const { keyed } = differing;
    if (keyed.origin === origin && !isJudgedElsewhere(analysis, keyed)) yield describe(analysis, differing);
  }
}

/** A span that the solved speed signal contradicts is told there, with what becomes of the speed. */
function isJudgedElsewhere(analysis: MachineAnalysis, { setting, scalar }: Keyed): boolean {
  if (JUDGED_ELSEWHERE.has(setting.is ?? '')) return true;
  // What the top speed becomes while the spans differ is told there as well.
  if (setting.is === 'spindle-top-speed') return differingSpans(analysis).length > 0;
  return (
    setting.is === 'speed-reference' &&
    differingSpans(analysis).some((differing) => differing.keyed?.scalar === scalar)
  );
}

function describe(analysis: MachineAnalysis, differing: Differing): Found {
  const { keyed, now, wanted, change } = differing;
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
      causes: leaves.map((leaf) => (isScale ? `${said(leaf.name)} ${leaf.shown}` : said(leaf.name))),
      ...(isScale && { ratio: formatNumber(now.si / (wanted.beyond ?? wanted.si), 4) }),
      ...beyondData(keyed, wanted),
      ...(!settingDiffers(keyed.setting, now, wanted) && { isAtEnd: true }),
    },
    related: [...leaves, ...(isSet ? [] : now.inputs)].flatMap((leaf) => relatedTo(analysis, leaf)),
    fixes: fixesOf(analysis, differing),
  };
}

function sayDiffering(data: Data): string {
  const [part, setting, wanted] = [word(data, 'part'), word(data, 'setting'), word(data, 'wanted')];
  const start =
    data.origin === 'set'
      ? say`${setting} of ${part} says ${word(data, 'now')}`
      : say`${setting} of ${part} is not set and stands at ${word(data, 'now')} as delivered`;
  const causes = wordList(data, 'causes');
  const isOne = causes.length === 1;
  const made = data.beyond === undefined ? wanted : word(data, 'beyond');
  const comes =
    data.from === 'scale'
      ? isOne
        ? say`${joinWords(causes)} makes ${made}`
        : say`${joinWords(causes, 'and')} make ${made}`
      : say`the ${joinWords(causes, 'and')} ${isOne ? 'asks' : 'ask'} for ${made}`;
  return say`${start}, but ${comes}${consequence(data)}. ${sayAdvice(data, wanted)}`;
}

/** What to do; a setting whose span ends before what follows cannot be what it should be. */
function sayAdvice(data: Data, wanted: string): string {
  if (data.beyond === undefined) return say`Set it to ${wanted}.`;
  const end = sayEnd(data);
  return data.isAtEnd === true ? end : say`Set it to ${wanted}. ${end}`;
}

const TIMES: Readonly<Record<string, string>> = { '0.5': 'half', '2': 'twice' };

/** What the difference does to the machine, with the figures. */
function consequence(data: Data): string {
  const ratio = word(data, 'ratio');
  if (ratio === '' || data.from !== 'scale') return '';
  return say`: moves would come out ${TIMES[ratio] ?? say`${ratio} times`} as long`;
}

function relatedTo({ file }: MachineAnalysis, leaf: Input): Related[] {
  if (!leaf.at) return [];
  return [
    {
      ...(leaf.file === undefined || leaf.file === file ? {} : { file: leaf.file }),
      at: leaf.at,
      note: `${said(leaf.name)} ${leaf.shown}`,
    },
  ];
}
