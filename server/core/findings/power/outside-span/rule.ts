import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { Feed } from '../../../circuits/supply.ts';
import type { Related } from '../../../problem.ts';
import { formatBest } from '../../../units/index.ts';
import { supplyVoltage } from '../../../values/supply.ts';
import { isFaulty } from '../../common/held-back.ts';
import { voltageTaken } from '../../common/voltage.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { endAt, fittingSupplies, moveToSupply } from '../other-supply.ts';

export const rule: Rule = {
  code: 'power/outside-span',
  severity: 'error',
  title: 'A supply gives a voltage that the part does not take',
  find: findOutside,
  say: (data) => {
    const high = data.side === 'above';
    const better = wordList(data, 'better');
    return `${word(data, 'voltage')} from ${word(data, 'supply')} feeds ${word(data, 'part')}, which takes ${word(data, 'span')}. ${high ? 'Too much voltage can destroy it.' : 'It will not work, or only now and then.'} ${better.length === 0 ? 'Feed it from a supply that fits' : `Feed it from ${joinWords(better)}`}.`;
  },
};

function* findOutside(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const feed of analysis.feeds) {
    const found = judge(analysis, feed);
    if (found) yield found;
  }
}

function judge(analysis: MachineAnalysis, feed: Feed): Found | undefined {
  const { load, supply } = feed;
  const voltage = supplyVoltage(analysis.machine, feed);
  const taken = voltageTaken(load);
  if (!voltage || !taken || !feed.link || (voltage.at && isFaulty(analysis, voltage.at))) return undefined;
  if (voltage.value >= taken.least && voltage.value <= taken.most) return undefined;
  const end = endAt(feed.link, load, 0);
  if (!end) return undefined;
  const elsewhere = (file: string | undefined) =>
    file === undefined || file === analysis.file ? {} : { file };
  const related: Related[] = [
    { ...elsewhere(load.part.sheet?.file), at: taken.at, note: `${load.part.name} takes ${taken.text}` },
  ];
  if (voltage.at)
    related.unshift({
      ...elsewhere(voltage.file),
      at: voltage.at,
      note: `${supply.part.name} gives ${voltage.shown}`,
    });
  return {
    at: end.at,
    data: {
      voltage: formatBest(voltage.value, 'voltage'),
      supply: supply.part.name,
      part: load.part.name,
      span: taken.text,
      side: voltage.value > taken.most ? 'above' : 'below',
      better: fittingSupplies(analysis, feed).map(({ part }) => part.name),
    },
    related,
    fixes: moveToSupply(analysis, feed, feed.link),
  };
}
