import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { terminalId } from '../../../circuits/nets.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import { circuitsOfKind, type Feed } from '../../../circuits/supply.ts';
import type { End } from '../../../model/link.ts';
import type { Link } from '../../../model/wiring.ts';
import type { Edit, Fix, Related } from '../../../problem.ts';
import { formatBest } from '../../../units/index.ts';
import { supplyVoltage } from '../../../values/supply.ts';
import { showsText } from '../../common/edits.ts';
import { isFaulty } from '../../common/held-back.ts';
import { fitsLoad, voltageTaken } from '../../common/voltage.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

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
      better: fitting(analysis, feed).map(({ part }) => part.name),
    },
    related,
    fixes: fixesFor(analysis, feed, feed.link),
  };
}

/** The end of a link that is this terminal of a circuit. */
function endAt(link: Link, { part, circuit }: CircuitAt, index: number): End | undefined {
  return [link.to, link.from].find((end) => isAt(end, part.name, circuit.ends[index]?.text));
}

function isAt(end: End, part: string, terminal: string | undefined): boolean {
  return end.part === part && end.terminal === terminal;
}

/** The other supplies of the machine, not those for a controller's own inputs and outputs, that give what the load takes. */
function fitting(analysis: MachineAnalysis, { load, supply }: Feed): CircuitAt[] {
  return circuitsOfKind(analysis.machine, 'power-out').filter(
    (other) =>
      other.part.sheet?.partClass === 'supply' &&
      other.part !== supply.part &&
      other.part !== load.part &&
      fitsLoad(analysis, other, load),
  );
}

/** Moves the load to another supply that fits, where its wires go to the supply straight. */
function fixesFor(analysis: MachineAnalysis, feed: Feed, link: Link): Fix[] {
  const { nets } = analysis;
  const minusId = (at: CircuitAt) => terminalId(at.part.name, at.circuit.ends[1]?.text ?? '');
  return fitting(analysis, feed).flatMap((other) => {
    const plus = moveEnd(analysis, link, feed, other, 0);
    const shared = nets.netOf(minusId(other)) === nets.netOf(minusId(feed.load));
    const minusLink = nets.linksAt(minusId(feed.load))[0];
    const minus = shared || !minusLink ? undefined : moveEnd(analysis, minusLink, feed, other, 1);
    if (!plus || (!shared && !minus)) return [];
    const title = `Feed ${feed.load.part.name} from ${other.part.name}.${other.circuit.ends[0]?.text}`;
    return [{ title, edits: minus ? [plus, minus] : [plus], safe: false }];
  });
}

/** Puts another supply's terminal in the place of this one's, in a link that serves nothing else. */
function moveEnd(
  { machine }: MachineAnalysis,
  link: Link,
  feed: Feed,
  other: CircuitAt,
  index: number,
): Edit | undefined {
  const end = endAt(link, feed.supply, index);
  const terminal = other.circuit.ends[index]?.text;
  const alone = machine.links.filter((each) => each.at === link.at).length === 1;
  if (!end || terminal === undefined || !alone || !showsText(end.at, `${end.part}.${end.terminal}`))
    return undefined;
  return { at: end.at, text: `${other.part.name}.${terminal}` };
}
