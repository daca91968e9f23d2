import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { Reads } from '../../circuits/solve/element.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import type { Sight } from '../../circuits/solve/reading.ts';
import { say } from '../../language/say.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Data, Related } from '../../problem.ts';
import type { Span } from '../../syntax/node.ts';
import { formatNumber } from '../../units/index.ts';
import { elsewhere, endsAt } from './link-ends.ts';

/** The sheet's keys of the thresholds, on before off. */
const THRESHOLDS: ReadonlyMap<string, readonly [on: string, off: string]> = new Map([
  ['pulled-up-in', ['on-below', 'off-above']],
  ['pulled-down-in', ['on-above', 'off-below']],
  ['opto-in', ['on-at', 'off-at']],
  ['line-in', ['voltage', 'voltage']],
  ['coil', ['voltage', 'voltage']],
]);

/** What an input looks at. */
export function readsOf({ solution, element }: SolvedInput): Reads | undefined {
  return solution.circuit.board.elements[element]?.reads;
}

/** What an input sees at rest and with each of its actors operated. */
export function sightsOf({ rest, operations }: SolvedInput): readonly Sight[] {
  return [rest, ...operations.map(({ sight }) => sight)];
}

/**
 * The end of an input that carries its signal: the first that is not joined to a supply straight, so that it can change.
 * @returns its place among the ends of the circuit
 */
export function signalEnd({ at, solution, element }: SolvedInput): number {
  const { board } = solution.circuit;
  const free = (board.endsOf[element] ?? []).findIndex(
    (end) => !board.rails.holds.has(board.nodeOf[end] ?? 0),
  );
  return free >= 0 && free < at.circuit.ends.length ? free : 0;
}

/** The terminal that carries the signal of an input, `panel.I3`. */
export function signalTerminal(input: SolvedInput): string {
  return terminalId(input.at.part.name, input.at.circuit.ends[signalEnd(input)]?.text ?? '');
}

/** Where a finding about an input stands: on the wire's line, where the link ends at the input. */
export function placeOf(analysis: MachineAnalysis, input: SolvedInput): Span {
  const { part, circuit } = input.at;
  const signal = signalTerminal(input);
  const others = circuit.ends.map((end) => terminalId(part.name, end.text));
  for (const terminal of [signal, ...others]) {
    const [end] = endsAt(analysis, terminal);
    if (end) return end.at;
  }
  return part.key;
}

/** The figures of a message about an input: its terminal, its purpose, what it sees, and what it needs. */
export function sightData(input: SolvedInput): Data {
  const { at, operations, rest } = input;
  const actor = operations[0]?.actor ?? input.idle[0];
  const reads = readsOf(input);
  const operated = operations[0]?.sight ?? (actor ? rest : undefined);
  return {
    input: signalTerminal(input),
    does: at.circuit.figures.text('does')?.value ?? '',
    rest: showSight(rest, reads),
    ...(operated && { operated: showSight(operated, reads) }),
    ...(actor && { actor: actor.part }),
    ...(reads && { turnsOn: sayThreshold(reads, 'on'), staysOff: sayThreshold(reads, 'off') }),
  };
}

/** A level as a meter would show it: `0.0 V`, `10.6 mA`. */
export function showSight({ value }: Sight, reads: Reads | undefined): string {
  return value === undefined ? '?' : showLevel(value, reads?.unit ?? 'V');
}

/** A level in V or A as a meter would show it, to a tenth. */
export function showLevel(value: number, unit: 'V' | 'A'): string {
  const tenths = Math.round((unit === 'A' ? value * 1e3 : value) * 10) / 10;
  return `${(tenths === 0 ? 0 : tenths).toFixed(1)} ${unit === 'A' ? 'mA' : 'V'}`;
}

/** What an input needs for a level: `more than 14 V`, `less than 1.5 V`. */
function sayThreshold({ on, off, unit, below }: Reads, level: 'on' | 'off'): string {
  const threshold = level === 'on' ? on : off;
  if (threshold === undefined) return '';
  const shown = formatNumber(unit === 'A' ? threshold * 1e3 : threshold);
  const more = (level === 'on') !== below;
  return say`${more ? 'more' : 'less'} than ${shown} ${unit === 'A' ? 'mA' : 'V'}`;
}

/** The line of the datasheet that states a threshold of an input. */
export function thresholdPlace(analysis: MachineAnalysis, { at }: SolvedInput, level: 'on' | 'off'): Related {
  const { part, circuit } = at;
  const key = THRESHOLDS.get(circuit.kind)?.[level === 'on' ? 0 : 1] ?? '';
  const given = circuit.figures.quantity(key) ?? circuit.figures.span(key);
  return {
    ...elsewhere(analysis, part.sheet?.file),
    at: given?.at ?? circuit.key,
    note: given
      ? say`${circuit.name} of ${part.name}: ${key} ${given.text}`
      : say`${circuit.name} of ${part.name}`,
  };
}

/** What acts on an input: the part, where the machine names its sheet. */
export function actorPlace({ machine }: MachineAnalysis, name: string | undefined): Related[] {
  const part = name === undefined ? undefined : machine.parts.get(name);
  if (!part) return [];
  return [{ at: part.sheetName ?? part.key, note: say`${part.name} acts on it` }];
}

/** A circuit of the machine as its present version has it, since solved circuits may be those of an earlier one. */
export function presentAt({ machine }: MachineAnalysis, { part, circuit }: CircuitAt): CircuitAt {
  return { part: machine.parts.get(part.name) ?? part, circuit };
}
