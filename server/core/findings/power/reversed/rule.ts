import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import { withCures } from '../../common/cure.ts';
import { endsAt, swapTerminals } from '../../common/link-ends.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type Reversed, reversedFeeds } from '../reversed-feeds.ts';

export const rule: Rule = {
  code: 'power/reversed',
  severity: 'error',
  title: later`Plus and minus of a supply are the wrong way round on a part`,
  find: findReversed,
  say: (data) =>
    say`${word(data, 'plus')} hangs on the minus of ${word(data, 'supply')}, and ${word(data, 'minus')} on its plus. Many parts are destroyed by that within an instant. Exchange the two wires.`,
};

function* findReversed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  // A part that is the wrong way round on one supply is one mistake, however many reach it.
  const seen = new Set<string>();
  for (const reversed of reversedFeeds(analysis)) {
    const [plus, minus] = terminalsOf(reversed);
    const at = endsAt(analysis, plus)[0]?.at;
    if (!at || seen.has(plus)) continue;
    seen.add(plus);
    const edits = swapTerminals(analysis, plus, minus);
    yield withCures(
      analysis,
      { at, data: { plus, minus, supply: reversed.supply.part.name } },
      () => [edits && { title: say`Exchange the wires at ${plus} and ${minus}`, edits, safe: false }],
      (after) => !reversedFeeds(after).some((each) => terminalsOf(each)[0] === plus),
    );
  }
}

function terminalsOf({ load: { part, circuit } }: Reversed): [plus: string, minus: string] {
  const [plus, minus] = circuit.ends.map((end) => terminalId(part.name, end.text));
  return [plus ?? '', minus ?? ''];
}
