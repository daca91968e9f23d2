import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { spanWithin } from '../../../syntax/node.ts';
import { joinWords, withArticle, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { SWITCH_CLASSES } from '../../wiring/purposes.ts';

export const rule: Rule = {
  code: 'name/unknown-switch',
  severity: 'error',
  title: later`An axis takes a part for its switch that is none`,
  find: findOthers,
  say: (data) => {
    const known = wordList(data, 'known');
    return say`${word(data, 'name')} is to be the ${word(data, 'key')} switch of ${word(data, 'axis')}, but it is ${withArticle(word(data, 'class'))} and never tells where the axis is. ${known.length > 0 ? say`Switches and sensors here are ${joinWords(known, 'and')}.` : 'Add the switch under parts.'}`;
  },
};

function* findOthers(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const { parts, axes } = analysis.machine;
  const known = [...parts.values()]
    .filter((part) => SWITCH_CLASSES.has(part.sheet?.partClass ?? ''))
    .map((part) => part.name);
  for (const axis of axes.values()) {
    for (const { key, value } of axis.fields.child('switches').node?.pairs ?? []) {
      if (value?.kind !== 'scalar') continue;
      const partClass = parts.get(value.text)?.sheet?.partClass ?? '';
      if (partClass === '' || SWITCH_CLASSES.has(partClass)) continue;
      const at = spanWithin(value, 0, value.text.length);
      const likely = known.filter((name) => name.toLowerCase().includes(key.text)).slice(0, 3);
      const fixes =
        value.textFrom === undefined
          ? []
          : likely.map((name) => ({
              title: say`Change to ${name}`,
              edits: [{ at, text: name }],
              safe: false,
            }));
      yield {
        at,
        data: { name: value.text, key: key.text, axis: axis.name, class: partClass, known },
        fixes,
      };
    }
  }
}
