import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { wheelSignal } from '../../../values/handwheel-input.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'handwheel/signal-kind',
  severity: 'error',
  title: later`The signals of a handwheel are not of the kind that the input takes`,
  find: findMismatch,
  say: (data) =>
    data.pair === true
      ? say`${word(data, 'wheel')} gives its signals as pairs, and ${word(data, 'input')} is a single-ended input: half of the signal is lost, and the other half may not reach its levels. Take a single-ended wheel, or a line receiver between them.`
      : say`${word(data, 'wheel')} gives single-ended signals, and ${word(data, 'input')} takes a pair: with one of its wires alone it cannot tell on from off. Take a wheel with pairs, or a line driver between them.`,
};

function* findMismatch(analysis: Analysis): Iterable<Found> {
  const met = analysis.kind === 'machine' ? wheelSignal(analysis.machine) : undefined;
  if (!met) return;
  const { wheel, signal, part, circuit, terminal, link } = met;
  const isPair = signal.kind === 'line-out';
  if (isPair === (circuit.kind === 'line-in')) return;
  yield {
    at: link.at,
    data: { wheel: wheel.name, input: `${part.name}.${terminal}`, pair: isPair },
    related: [{ at: wheel.key, note: say`${wheel.name} gives ${isPair ? 'pairs' : 'single-ended signals'}` }],
  };
}
