import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { nearestName } from '../../../nearest.ts';
import { spanWithin } from '../../../syntax/node.ts';
import { renameAll } from '../../common/edits.ts';
import { sheetOf } from '../../common/own-sheets.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'name/unknown-setting',
  severity: 'error',
  title: later`A setting is named that the part does not have`,
  find: findUnknown,
  say: (data) => {
    const part = word(data, 'part');
    const known = wordList(data, 'known');
    const what = say`${part} has no setting ${word(data, 'name')}, so what is written there goes nowhere.`;
    if (known.length === 0) return say`${what} Its sheet lists no settings at all.`;
    const nearest = word(data, 'nearest');
    return `${what} ${nearest === '' ? say`It has ${joinWords(known, 'and', 12)}.` : say`Did you mean ${nearest}?`}`;
  },
};

function* findUnknown(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const part of analysis.machine.parts.values()) {
    const sheet = sheetOf(part);
    if (!sheet) continue;
    const known = [...sheet.settings.keys()];
    const free = known.filter((name) => !part.assigned.has(name));
    for (const [name, { key }] of part.assigned) {
      if (sheet.settings.has(name)) continue;
      const nearest = nearestName(name, free);
      const at = spanWithin(key, 0, name.length);
      const rename = nearest === undefined ? undefined : renameAll([at], name, nearest);
      const data = { part: part.name, name, known, ...(nearest !== undefined && { nearest }) };
      yield { at, data, fixes: rename ? [rename] : [] };
    }
  }
}
