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
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

/** Loads that state one voltage and no span bear so much more or less (common practice, no source). */
const TOLERANCE = 0.1;

export const rule: Rule = {
  code: 'power/outside-span',
  severity: 'error',
  title: 'A supply gives a voltage that the part does not take',
  find: findOutside,
  say: (data) => {
    const high = data.side === 'above';
    return `${word(data, 'voltage')} from ${word(data, 'supply')} feeds ${word(data, 'part')}, which takes ${word(data, 'span')}. ${high ? 'Too much voltage can destroy it.' : 'It will not work, or only now and then.'} Feed it from another supply${word(data, 'better') === '' ? '' : `: ${word(data, 'better')} fits`}.`;
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
  const taken = spanOf(load);
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
  const fixes = fixesFor(analysis, feed, feed.link);
  return {
    at: end.at,
    data: {
      voltage: formatBest(voltage.value, 'voltage'),
      supply: supply.part.name,
      part: load.part.name,
      span: taken.text,
      side: voltage.value > taken.most ? 'above' : 'below',
      better: fixes[0]?.supply ?? '',
    },
    related,
    fixes: fixes.map(({ fix }) => fix),
  };
}

interface Taken {
  readonly least: number;
  readonly most: number;
  readonly text: string;
  readonly at: Related['at'];
}

/** What a load takes, in volts; a single figure with its tolerance. */
function spanOf({ circuit }: CircuitAt): Taken | undefined {
  const given = circuit.figures.span('voltage');
  if (!given) return undefined;
  const { least, most } = given.value;
  const slack = least.value === most.value ? Math.abs(least.value) * TOLERANCE : 0;
  return { least: least.value - slack, most: most.value + slack, text: given.text, at: given.at };
}

/** The end of a link that is this terminal of a circuit. */
function endAt(link: Link, { part, circuit }: CircuitAt, index: number): End | undefined {
  return [link.to, link.from].find((end) => isAt(end, part.name, circuit.ends[index]?.text));
}

function isAt(end: End, part: string, terminal: string | undefined): boolean {
  return end.part === part && end.terminal === terminal;
}

/** Moves the load to another supply that fits, where its wires go to the supply straight. */
function fixesFor(analysis: MachineAnalysis, feed: Feed, link: Link): { supply: string; fix: Fix }[] {
  const { machine, nets } = analysis;
  const taken = spanOf(feed.load);
  const fixes: { supply: string; fix: Fix }[] = [];
  for (const other of circuitsOfKind(machine, 'power-out')) {
    if (other.part === feed.supply.part || other.part === feed.load.part || !taken) continue;
    const voltage = supplyVoltage(machine, { ...feed, supply: other })?.value ?? Number.NaN;
    if (!(voltage >= taken.least && voltage <= taken.most)) continue;
    const plus = moveEnd(analysis, link, feed, other, 0);
    const minusId = (at: CircuitAt) => terminalId(at.part.name, at.circuit.ends[1]?.text ?? '');
    const shared = nets.netOf(minusId(other)) === nets.netOf(minusId(feed.load));
    const minusLink = nets.linksAt(minusId(feed.load))[0];
    const minus = shared || !minusLink ? undefined : moveEnd(analysis, minusLink, feed, other, 1);
    if (!plus || (!shared && !minus)) continue;
    const name = `${other.part.name}.${other.circuit.ends[0]?.text}`;
    fixes.push({
      supply: other.part.name,
      fix: {
        title: `Feed ${feed.load.part.name} from ${name}`,
        edits: minus ? [plus, minus] : [plus],
        safe: false,
      },
    });
  }
  return fixes;
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
