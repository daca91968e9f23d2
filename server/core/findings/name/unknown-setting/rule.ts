import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { partsOf } from '../../../model/resolve.ts';
import { nearestName } from '../../../nearest.ts';
import { keptBy } from '../../../reuse/kept-by.ts';
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
  for (const part of partsOf(analysis.machine)) yield* unknownIn(part);
}

const unknownIn = keptBy((part: Part): readonly Found[] => {
  const sheet = sheetOf(part);
  if (!sheet) return [];
  const known = [...sheet.settings.keys()];
  const free = known.filter((name) => !part.assigned.has(name));
  return [...part.assigned].flatMap(([name, { key }]) => {
    if (sheet.settings.has(name)) return [];
    const nearest = nearestName(name, free);
    const at = spanWithin(key, 0, name.length);
    const rename = nearest === undefined ? undefined : renameAll([at], name, nearest);
    const data = { part: part.name, name, known, ...(nearest !== undefined && { nearest }) };
    return [{ at, data, fixes: rename ? [rename] : [] }];
  });
});
