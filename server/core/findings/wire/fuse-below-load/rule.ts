import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { fusesOf } from '../../../circuits/ways.ts';
import { later, say } from '../../../language/say.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { formatBest } from '../../../units/index.ts';
import { flowThrough } from '../../../values/wire-currents.ts';
import { isFaulty } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import { overloadingFigures } from '../../power/load.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'wire/fuse-below-load',
  severity: 'warning',
  title: later`A fuse is smaller than what flows through it`,
  find: findSmall,
  say: (data) =>
    say`Up to ${word(data, 'current')} flows through ${word(data, 'fuse')}, which is rated ${word(data, 'rating')} (${word(data, 'sum')}). It blows while the machine works. Take a larger one, as far as the wires behind it bear that, or divide the load.`,
};

function* findSmall(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const small = smallFuses(analysis).flatMap((each) => each ?? []);
  if (small.length === 0) return;
  // What is too much for its supply is too much for the fuse as well, and is said of the supply.
  const overloading = overloadingFigures(analysis);
  for (const { part, rating, flow } of small) {
    if (flow.inputs.some(({ at }) => at && (isFaulty(analysis, at) || overloading.has(at)))) continue;
    const { sheet } = part;
    yield {
      at: part.key,
      data: {
        fuse: part.name,
        rating: rating.text,
        current: formatBest(flow.si, 'current', 4),
        sum: flow.formula.replace(/[{}]/g, ''),
      },
      related: [
        {
          ...(sheet && sheet.file !== analysis.file && { file: sheet.file }),
          at: rating.at,
          note: say`${part.name} is rated ${rating.text}`,
        },
      ],
    };
  }
}

/** The fuses through which more flows than they are rated for, at their places among all fuses. */
const smallFuses = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => fusesOf(machine),
  ({ machine }: MachineAnalysis, { inside, slot }) => {
    const rating = inside?.circuit.figures.quantity('rating');
    const flow = rating && flowThrough(machine, slot);
    return inside && flow && flow.si > rating.value.value * (1 + 1e-9)
      ? { part: inside.part, rating, flow }
      : undefined;
  },
);
