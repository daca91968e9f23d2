import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import { later, say } from '../../../language/say.ts';
import type { Data, Related } from '../../../problem.ts';
import { formatBest } from '../../../units/index.ts';
import type { Input } from '../../../values/derived.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type ForeignVoltage, foreignVoltages, whereItComes } from '../half-feeds.ts';
import { endAt, fittingSupplies, moveToSupply } from '../other-supply.ts';
import { type WrongVoltage, wrongVoltages } from '../wrong-voltages.ts';

export const rule: Rule = {
  code: 'power/outside-span',
  severity: 'error',
  title: later`A supply gives a voltage that the part does not take`,
  find: findOutside,
  say: (data) => {
    const high = data.side === 'above';
    const parts = wordList(data, 'parts');
    const [better, several] = [wordList(data, 'better'), parts.length > 1];
    const harm = high
      ? say`Too much voltage can destroy ${several ? 'them' : 'it'}.`
      : say`${several ? 'They' : 'It'} will not work, or only now and then.`;
    const advice =
      better.length === 0
        ? say`Feed ${several ? 'them' : 'it'} from a supply that fits`
        : say`Feed ${several ? 'them' : 'it'} from ${joinWords(better)}`;
    return data.other === undefined
      ? say`${word(data, 'voltage')} from ${word(data, 'supply')} feeds ${joinWords(parts, 'and')}, which ${several ? 'take' : 'takes'} ${word(data, 'span')}. ${harm} ${advice}.`
      : say`${word(data, 'voltage')} from ${word(data, 'supply')} comes to the plus of ${joinWords(parts, 'and')}, which ${several ? 'take' : 'takes'} ${word(data, 'span')}, and the minus hangs on ${word(data, 'other')}: nothing flows while the two supplies have nothing in common, and the wrong voltage is there as soon as they have. ${harm} ${advice}.`;
  },
};

/** Where a supply suits none of its several loads it is the mistake, and one finding; otherwise each load that is on it. */
function* findOutside(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const wrong of wrongVoltages(analysis)) {
    const { supply, voltage, feeds, suitsNone } = wrong;
    const place =
      voltage.at && (voltage.file === undefined || voltage.file === analysis.file)
        ? voltage.at
        : supply.part.key;
    if (suitsNone && feeds.length > 1) yield describe(analysis, wrong, feeds, place);
    else {
      for (const feed of feeds) {
        const end = feed.link && endAt(feed.link, feed.load, 0);
        if (end) yield describe(analysis, wrong, [feed], end.at);
      }
    }
  }
  for (const foreign of foreignVoltages(analysis)) yield describeForeign(analysis, foreign);
}

/** What hangs with its plus on one supply and with its minus on another. */
function describeForeign(analysis: MachineAnalysis, foreign: ForeignVoltage): Found {
  const { supply, voltage, wrong } = foreign;
  const [first] = wrong;
  return {
    at: whereItComes(analysis, foreign)?.at ?? supply.part.key,
    data: {
      ...dataOf(voltage, supply, wrong),
      other: [...new Set(wrong.map(({ other }) => other.part.name))],
      better: first ? fittingSupplies(analysis, first).map(({ part }) => part.name) : [],
    },
    related: relatedTo(analysis, wrong),
  };
}

function describe(
  analysis: MachineAnalysis,
  { supply, voltage }: WrongVoltage,
  feeds: WrongVoltage['feeds'],
  at: Found['at'],
): Found {
  const [first, ...others] = feeds;
  const related = relatedTo(analysis, feeds);
  if (voltage.at && voltage.at !== at)
    related.unshift({
      ...elsewhere(analysis, voltage.file),
      at: voltage.at,
      note: say`${supply.part.name} gives ${voltage.shown}`,
    });
  return {
    at,
    data: {
      ...dataOf(voltage, supply, feeds),
      better:
        first && others.length === 0 ? fittingSupplies(analysis, first).map(({ part }) => part.name) : [],
    },
    related,
    fixes: first?.link && others.length === 0 ? moveToSupply(analysis, first, first.link) : [],
  };
}

type Judged = Pick<WrongVoltage['feeds'][number], 'load' | 'taken'>;

function dataOf(voltage: Input, supply: CircuitAt, loads: readonly Judged[]): Data {
  return {
    voltage: formatBest(voltage.value, 'voltage'),
    supply: supply.part.name,
    parts: loads.map(({ load }) => load.part.name),
    span: joinWords([...new Set(loads.map(({ taken }) => taken.text))]),
    side: voltage.value > (loads[0]?.taken.most ?? 0) ? 'above' : 'below',
  };
}

function relatedTo(analysis: MachineAnalysis, loads: readonly Judged[]): Related[] {
  return loads.slice(0, 8).map(({ load, taken }) => ({
    ...elsewhere(analysis, load.part.sheet?.file),
    at: taken.at,
    note: say`${load.part.name} takes ${taken.text}`,
  }));
}
