import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { terminalId } from '../../../circuits/nets.ts';
import { circuitsDoing } from '../../../circuits/signals.ts';
import type { Part } from '../../../model/machine.ts';
import { partsWithSheets } from '../../../model/resolve.ts';
import type { Circuit } from '../../../model/sheet.ts';
import type { Link } from '../../../model/wiring.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'handwheel/signal-kind',
  severity: 'error',
  title: 'The signals of a handwheel are not of the kind that the input takes',
  find: findMismatch,
  say: (data) =>
    data.pair === true
      ? `${word(data, 'wheel')} gives its signals as pairs, and ${word(data, 'input')} is a single-ended input: half of the signal is lost, and the other half may not reach its levels. Take a single-ended wheel, or a line receiver between them.`
      : `${word(data, 'wheel')} gives single-ended signals, and ${word(data, 'input')} takes a pair: with one of its wires alone it cannot tell on from off. Take a wheel with pairs, or a line driver between them.`,
};

const COUNTING = ['handwheel A', 'handwheel B'] as const;

/** Both signals are of one kind, so one finding says it of the first that is wired. */
function* findMismatch(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const name = analysis.machine.fields.child('handwheel').text('part');
  const wheel = name && analysis.machine.parts.get(name.value);
  if (!wheel) return;
  for (const counting of COUNTING) {
    for (const signal of circuitsDoing(wheel, counting)) {
      const met = inputOn(analysis, wheel, signal, counting);
      if (!met) continue;
      const isPair = signal.kind === 'line-out';
      if (isPair === (met.circuit.kind === 'line-in')) return;
      yield {
        at: met.link.at,
        data: { wheel: wheel.name, input: `${met.part.name}.${met.terminal}`, pair: isPair },
        related: [
          { at: wheel.key, note: `${wheel.name} gives ${isPair ? 'pairs' : 'single-ended signals'}` },
        ],
      };
      return;
    }
  }
}

interface Met {
  readonly part: Part;
  readonly circuit: Circuit;
  readonly terminal: string;
  readonly link: Link;
}

/** The input of another part for the same signal that one of the signal's wires leads to. */
function inputOn(
  { machine, nets }: MachineAnalysis,
  wheel: Part,
  signal: Circuit,
  counting: string,
): Met | undefined {
  const live = signal.kind === 'line-out' ? signal.ends : signal.ends.slice(0, 1);
  const own = new Set(live.map((end) => nets.netOf(terminalId(wheel.name, end.text))));
  for (const { part } of partsWithSheets(machine)) {
    if (part === wheel) continue;
    for (const circuit of circuitsDoing(part, counting)) {
      const ends = circuit.kind === 'line-in' ? circuit.ends : circuit.ends.slice(0, 1);
      for (const { text: terminal } of ends) {
        const id = terminalId(part.name, terminal);
        const [link] = nets.linksAt(id);
        if (link && own.has(nets.netOf(id))) return { part, circuit, terminal, link };
      }
    }
  }
  return undefined;
}
