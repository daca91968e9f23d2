import type { MachineAnalysis } from '../../analysis.ts';
import { figure } from '../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { say } from '../../language/say.ts';
import type { End } from '../../model/link.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Fix } from '../../problem.ts';
import { valueUnder } from '../../syntax/node.ts';
import { formatBest, formatNumber } from '../../units/index.ts';
import { addItem } from '../common/edits.ts';
import { endsAt, moveEnd } from '../common/link-ends.ts';
import { readsOf, sightsOf, signalEnd } from '../common/sights.ts';
import { addResistorPart } from './resistor-part.ts';
import { nextPowerRating, nextStandardValue } from './standard-values.ts';

/**
 * Puts a resistor of a standard value into the wire of an isolated input that gets too much current. It is chosen for
 * the current midway between what turns the input on and the most that it bears (their geometric mean); the next value
 * of E12 above it is offered, and the next of E24 where that is another one.
 * @param number the least number that it is called by, so that several can be added at once
 */
export function addResistor(analysis: MachineAnalysis, input: SolvedInput, number = 1): Fix[] {
  const reads = readsOf(input);
  if (input.at.circuit.kind !== 'opto-in' || reads?.on === undefined || reads.most === undefined) return [];
  const inside = Math.max(figure(input.at.circuit, 'series') ?? 0, 1);
  const worst = Math.max(...sightsOf(input).map(({ value = 0 }) => Math.abs(value)));
  const volts = worst * inside;
  const wanted = volts / Math.sqrt(reads.on * reads.most) - inside;
  if (!(wanted > 0) || !Number.isFinite(wanted)) return [];
  const values = new Set([nextStandardValue(wanted, 'E12'), nextStandardValue(wanted, 'E24')]);
  return [...values].flatMap(
    (ohms) => insert(analysis, input, ohms, (volts / (inside + ohms)) ** 2 * ohms, number) ?? [],
  );
}

function insert(
  analysis: MachineAnalysis,
  input: SolvedInput,
  ohms: number,
  watts: number,
  number: number,
): Fix | undefined {
  const rating = nextPowerRating(watts);
  const end = wireEnd(analysis, input);
  const part = rating === undefined ? undefined : addResistorPart(analysis, ohms, rating, number);
  if (rating === undefined || !end || !part) return undefined;
  const terminal = end.id;
  const resistance = formatBest(ohms, 'resistance');
  const edits = [
    part.edit,
    moveEnd(end, `${part.name}.1`),
    addItem(analysis.tree, valueUnder(analysis.tree.root, 'wiring'), `${part.name}.2 -> ${terminal}`),
  ].filter((edit) => edit !== undefined);
  const title = say`Put ${resistance}, ${formatNumber(rating)} W before ${terminal} (it loses ${formatBest(watts, 'power', 2)})`;
  return edits.length === 3 ? { title, edits, safe: false } : undefined;
}

/** The end of the one wire at a terminal that belongs to this input alone: its signal, or else its other side. */
function wireEnd(analysis: MachineAnalysis, input: SolvedInput): End | undefined {
  const { part, circuit } = input.at;
  const signal = signalEnd(input);
  for (const index of [signal, 1 - signal]) {
    const name = circuit.ends[index]?.text ?? '';
    const isShared = [...(part.sheet?.circuits.values() ?? [])].some(
      (other) => other.name !== circuit.name && other.ends.some(({ text }) => text === name),
    );
    const ends = endsAt(analysis, terminalId(part.name, name));
    const links = analysis.nets.linksAt(terminalId(part.name, name));
    if (!isShared && links.length === 1 && ends[0]) return ends[0];
  }
  return undefined;
}
