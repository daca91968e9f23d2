import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { Feed } from '../../../circuits/supply.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import type { Span } from '../../../syntax/node.ts';
import { formatBest } from '../../../units/index.ts';
import type { Input } from '../../../values/derived.ts';
import { supplyVoltage } from '../../../values/supply.ts';
import { isFaulty } from '../../common/held-back.ts';
import { type Taken, voltageTaken } from '../../common/voltage.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'power/near-ceiling',
  severity: 'warning',
  title: later`A supply leaves drives no room for what braking gives back`,
  find: findNear,
  say: (data) =>
    say`${word(data, 'supply')} gives ${word(data, 'voltage')}, and ${joinWords(wordList(data, 'drives'), 'and')} ${wordList(data, 'drives').length > 1 ? 'end' : 'ends'} at ${word(data, 'most')}. Braking motors push energy back and raise the supply; less than 10 % above it is little room (common practice). ${word(data, 'trim') === '' ? 'Take a lower supply or drives that bear more' : say`Trim it to ${word(data, 'trim')} or less`}.`,
};

/** How far below the drive's end a supply is usually kept (common practice, no source). */
const ROOM = 0.1;

interface Near {
  readonly feed: Feed;
  readonly voltage: Input;
  readonly taken: Taken;
}

/** All drives on one supply are one mistake: the one that bears least stands for them. */
function* findNear(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const near = analysis.feeds.flatMap((feed) => judge(analysis, feed) ?? []);
  for (const [supply, same] of groupBy(near, ({ feed }) => feed.supply.part)) {
    const { voltage, taken } = same.reduce((a, b) => (b.taken.most < a.taken.most ? b : a));
    const limit = taken.most * (1 - ROOM);
    const lowest = same[0]?.feed.supply.circuit.figures.span('trim')?.value.least.value;
    yield {
      at: placeOf(analysis, supply, voltage),
      data: {
        supply: supply.name,
        voltage: formatBest(voltage.value, 'voltage'),
        most: formatBest(taken.most, 'voltage'),
        drives: same.map(({ feed }) => feed.load.part.name),
        trim:
          lowest !== undefined && lowest <= limit ? formatBest(Math.floor(limit * 10) / 10, 'voltage') : '',
      },
      related: same.slice(0, 8).map(({ feed, taken: own }) => {
        const file = feed.load.part.sheet?.file;
        return {
          ...(file !== undefined && file !== analysis.file && { file }),
          at: own.at,
          note: say`${feed.load.part.name} takes ${own.text}`,
        };
      }),
    };
  }
}

function judge(analysis: MachineAnalysis, feed: Feed): Near | undefined {
  if (feed.load.part.sheet?.partClass !== 'drive') return undefined;
  const voltage = supplyVoltage(analysis.machine, feed);
  const taken = voltageTaken(feed.load);
  if (!voltage || !taken || (voltage.at && isFaulty(analysis, voltage.at))) return undefined;
  const isNear = voltage.value <= taken.most && voltage.value > taken.most * (1 - ROOM) * (1 + 1e-9);
  return isNear ? { feed, voltage, taken } : undefined;
}

/** Where the voltage is set in this machine, else the supply. */
function placeOf({ file }: MachineAnalysis, { key }: Part, voltage: Input): Span {
  return voltage.at && voltage.file === file ? voltage.at : key;
}
