import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Given } from '../../../shape/fields.ts';
import type { Mains } from '../../../shape/mains.ts';
import type { Span } from '../../../syntax/node.ts';
import { formatBest, formatNumber } from '../../../units/index.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type MainsLoad, mainsLoads } from '../mains-loads.ts';

export const rule: Rule = {
  code: 'power/mains-outside',
  severity: 'error',
  title: later`The mains give a voltage that the part does not take`,
  find: findOutside,
  say: (data) =>
    say`The mains give ${joinWords(wordList(data, 'parts'), 'and')} ${word(data, 'voltage')}${data.between === true ? ' between two phases' : ''}, and ${wordList(data, 'parts').length > 1 ? say`${wordList(data, 'parts')[0]} takes` : 'it takes'} ${word(data, 'span')}. ${data.side === 'above' ? 'That can burst or burn when it is switched on' : 'That will not work, or draws too much'}. Take parts for these mains or a transformer, and leave the work to a licensed person.`,
};

/** Mains that suit nothing that is on them are the mistake, and one finding; otherwise each part that does not take them. */
function* findOutside(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const { mains, outside, suitsNone } = mainsLoads(analysis);
  const [first, ...others] = outside;
  if (!mains || !first) return;
  if (suitsNone && others.length > 0) yield describe(analysis, mains, first, mains.at, others);
  else {
    for (const each of outside) {
      const { part, circuit } = each.load;
      const end = circuit.ends[0]?.text;
      const link = analysis.machine.links.find(({ from, to }) =>
        [from, to].some((one) => one.part === part.name && one.terminal === end),
      );
      const at = link && [link.from, link.to].find((one) => one.part === part.name)?.at;
      yield describe(analysis, mains, each, at ?? part.key, []);
    }
  }
}

function describe(
  analysis: MachineAnalysis,
  mains: Given<Mains>,
  { load: { part }, volts, between, taken }: MainsLoad,
  at: Span,
  others: readonly MainsLoad[],
): Found {
  return {
    at,
    data: {
      parts: [part.name, ...others.map(({ load }) => load.part.name)],
      voltage: `${formatNumber(volts, 3)} V`,
      between,
      span: taken.text,
      side: volts > taken.most ? 'above' : 'below',
    },
    related: [
      ...(at === mains.at
        ? []
        : [
            {
              at: mains.at,
              note: say`mains of ${mains.text}, ${formatBest(mains.value.voltage.value, 'voltage')}`,
            },
          ]),
      {
        ...(part.sheet && part.sheet.file !== analysis.file && { file: part.sheet.file }),
        at: taken.at,
        note: say`${part.name} takes ${taken.text}`,
      },
    ],
  };
}
