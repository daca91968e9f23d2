import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { formatNumber } from '../../../units/index.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { strayMains } from '../stray-mains.ts';

export const rule: Rule = {
  code: 'power/mains-on-low-voltage',
  severity: 'error',
  title: later`The mains come to a terminal that is not made for them`,
  find: findMains,
  say: (data) =>
    say`The live conductor ${word(data, 'live')} comes to ${word(data, 'terminal')}, and ${word(data, 'circuit')} there is not made for ${word(data, 'volts')}: it is destroyed when the power is switched on, and everything that hangs on it can be touched and is live. Take this wire away from the mains. Work on mains wiring is for a licensed person, by local codes.`,
};

function* findMains(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { live, end, link, volts } of strayMains(analysis)) {
    const isHere = (each: { part: string; terminal: string }) =>
      `${each.part}.${each.terminal}` === end.terminal;
    const at = link && ([link.to, link.from].find(isHere)?.at ?? link.at);
    yield {
      at: at ?? end.part.key,
      data: {
        live,
        terminal: end.terminal,
        circuit: end.circuit.name,
        volts: `${formatNumber(volts, 3)} V`,
      },
      related: [
        {
          ...elsewhere(analysis, end.part.sheet?.file),
          at: end.circuit.key,
          note: say`the circuit ${end.circuit.name} of ${end.part.name}`,
        },
      ],
    };
  }
}
