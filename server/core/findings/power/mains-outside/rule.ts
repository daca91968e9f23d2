import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import { circuitsOfKind } from '../../../circuits/supply.ts';
import { placeOfEnd, reachOf, waysOf } from '../../../circuits/ways.ts';
import { MAINS, mainsTerminals } from '../../../model/resolve.ts';
import { formatBest, formatNumber } from '../../../units/index.ts';
import { isFaulty } from '../../common/held-back.ts';
import { voltageTaken } from '../../common/voltage.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'power/mains-outside',
  severity: 'error',
  title: 'The mains give a voltage that the part does not take',
  find: findOutside,
  say: (data) =>
    `The mains give ${word(data, 'part')} ${word(data, 'voltage')}${data.between === true ? ' between two phases' : ''}, and it takes ${word(data, 'span')}. ${data.side === 'above' ? 'It can burst or burn when it is switched on' : 'It will not work, or draws too much'}. Take a part for these mains or feed it through a transformer, and leave the work to a licensed person.`,
};

function* findOutside(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const mains = analysis.machine.fields.mains('mains');
  if (!mains || isFaulty(analysis, mains.at)) return;
  const line = mains.value.voltage.value;
  for (const load of ['mains-in', 'three-phase-in'].flatMap((kind) =>
    circuitsOfKind(analysis.machine, kind),
  )) {
    const taken = voltageTaken(load);
    const between = taken && isBetweenPhases(analysis, load);
    if (!taken || between === undefined) continue;
    // With three phases the figure is that between two of them.
    const volts = mains.value.phases === 3 && !between ? line / Math.sqrt(3) : line;
    if (fits(volts, taken.least, taken.most)) continue;
    const { part } = load;
    const end = load.circuit.ends[0]?.text;
    const link = analysis.machine.links.find(({ from, to }) =>
      [from, to].some((each) => each.part === part.name && each.terminal === end),
    );
    const at = link && [link.from, link.to].find((each) => each.part === part.name)?.at;
    yield {
      at: at ?? part.key,
      data: {
        part: part.name,
        voltage: `${formatNumber(volts, 3)} V`,
        between: mains.value.phases === 3 && between,
        span: taken.text,
        side: volts > taken.most ? 'above' : 'below',
      },
      related: [
        { at: mains.at, note: `mains of ${mains.text}, ${formatBest(line, 'voltage')}` },
        {
          ...(part.sheet && part.sheet.file !== analysis.file && { file: part.sheet.file }),
          at: taken.at,
          note: `${part.name} takes ${taken.text}`,
        },
      ],
    };
  }
}

/** Makers state nominal voltages; 400 V between phases give 230.9 V to neutral, which a part for 230 V takes. */
function fits(volts: number, least: number, most: number): boolean {
  return volts >= least * 0.995 && volts <= most * 1.005;
}

/** Whether a part hangs between two phases; undefined where the mains do not reach it. */
function isBetweenPhases({ machine }: MachineAnalysis, load: CircuitAt): boolean | undefined {
  const ways = waysOf(machine);
  const names = load.circuit.ends.slice(0, 2).map((_, index) => {
    const place = placeOfEnd(ways, load, index);
    return mainsTerminals(machine).find((terminal) => {
      const start = ways.placeOf.get(`${MAINS}.${terminal}`);
      return start !== undefined && place !== undefined && reachOf(ways, start).by.has(place);
    });
  });
  if (names.some((name) => name === undefined || name === 'PE')) return undefined;
  return names.every((name) => name !== 'N');
}
