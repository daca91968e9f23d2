import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { partsOf } from '../../../model/resolve.ts';
import { keyedIn } from '../../../model/settings.ts';
import type { Setting } from '../../../model/sheet.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { addSettings } from '../../common/edits.ts';
import { isAnyBlockBroken, soundValue } from '../../common/held-back.ts';
import { writeSetting } from '../../common/setting-edit.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'setting/not-written',
  severity: 'hint',
  title: later`Settings that follow from the definition are not written down`,
  find: findUnwritten,
  say: (data) => {
    const settings = wordList(data, 'settings');
    const [it, is] = settings.length === 1 ? ['it', 'is'] : ['them', 'are'];
    return say`${joinWords(settings, 'and')} of ${word(data, 'part')} ${is} not written down, and nobody can tell from here whether ${it === 'it' ? 'it is' : 'they are'} keyed in right. What follows is known: write ${it} down, and key ${it} in.`;
  },
};

function* findUnwritten(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  for (const { part, known } of unwrittenIn(analysis))
    if (known.length > 0) yield describe(analysis, part, known);
}

const unwrittenIn = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis, part) => ({
    part,
    known: [...(part.sheet?.settings.values() ?? [])].flatMap((setting) =>
      unwritten(analysis, part, setting),
    ),
  }),
);

/** A setting that has no value, neither set nor delivered, though one follows. */
function unwritten(
  analysis: MachineAnalysis,
  part: Part,
  setting: Setting,
): { readonly name: string; readonly value: string }[] {
  if (part.assigned.has(setting.name) || keyedIn(analysis.machine.file, part, setting)) return [];
  const wanted = soundValue(analysis, `settings.${part.name}.${setting.name}.wanted`);
  return wanted ? [{ name: setting.name, value: writeSetting(setting, wanted.word ?? wanted.si) }] : [];
}

function describe(
  analysis: MachineAnalysis,
  part: Part,
  known: readonly { readonly name: string; readonly value: string }[],
): Found {
  const edits = addSettings(analysis.tree, part, known);
  const [first] = known;
  const what =
    known.length === 1 && first
      ? `${first.name}: ${first.value}`
      : say`the ${known.length} settings that follow`;
  return {
    at: part.key,
    data: { part: part.name, settings: known.map(({ name, value }) => `${name} (${value})`) },
    fixes: edits.length > 0 ? [{ title: say`Write down ${what}`, edits, safe: false }] : [],
  };
}
