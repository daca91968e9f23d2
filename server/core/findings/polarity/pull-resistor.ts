import type { MachineAnalysis } from '../../analysis.ts';
import { figure, suppliedVolts } from '../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { say } from '../../language/say.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Fix } from '../../problem.ts';
import { valueUnder } from '../../syntax/node.ts';
import { formatBest } from '../../units/index.ts';
import { addItem } from '../common/edits.ts';
import { together, turnSense } from '../common/sense-fixes.ts';
import { signalTerminal } from '../common/sights.ts';
import { addResistorPart } from '../level/resistor-part.ts';
import { nextPowerRating, nextStandardValue } from '../level/standard-values.ts';

/** The voltage reaches its threshold with so much to spare (common practice, no source). */
const RESERVE = 1.15;

/** Values of E12 are at most so far apart. */
const STEP = 1.22;

/**
 * Turns an input round for a sensor of the other kind: a resistor that pulls it to where the sensor does not. The sensor
 * then overcomes the resistor, so the input reads the opposite, and its sense may have to be turned in the same action.
 */
export function addPullResistor(analysis: MachineAnalysis, input: SolvedInput): Fix[] {
  const pull = pullFor(analysis, input);
  const rating = pull && nextPowerRating(pull.volts ** 2 / pull.ohms);
  if (!pull || rating === undefined || !Number.isFinite(pull.ohms) || pull.ohms <= 0) return [];
  const part = addResistorPart(analysis, pull.ohms, rating);
  const list = valueUnder(analysis.tree.root, 'wiring');
  const both = part && addItem(analysis.tree, list, `${pull.from} -> ${part.name}.1`);
  const other = part && addItem(analysis.tree, list, `${part.name}.2 -> ${signalTerminal(input)}`);
  if (!part || !both || !other) return [];
  // Two insertions at one place are one edit.
  const lines = { at: both.at, text: `${both.text}${other.text}` };
  const fix: Fix = {
    title: say`Pull ${signalTerminal(input)} to ${pull.from} by ${formatBest(pull.ohms, 'resistance')}`,
    edits: [part.edit, lines],
    safe: false,
  };
  const turned = together(fix, turnSense(analysis, input));
  return turned ? [fix, turned] : [fix];
}

interface Pull {
  readonly from: string;
  readonly volts: number;
  readonly ohms: number;
}

/** Where to pull the input to, and by how much, so that it crosses its threshold while the sensor is off. */
function pullFor({ machine }: MachineAnalysis, { at: { part, circuit } }: SolvedInput): Pull | undefined {
  const inside = figure(circuit, 'resistance') ?? Number.NaN;
  const back = circuit.ends[1]?.text ?? '';
  if (circuit.kind === 'pulled-up-in') {
    const volts = figure(circuit, 'pull') ?? Number.NaN;
    const share = (figure(circuit, 'on-below') ?? Number.NaN) / RESERVE / volts;
    const ohms = nextStandardValue((inside * share) / (1 - share) / STEP, 'E12');
    return { from: terminalId(part.name, back), volts, ohms };
  }
  if (circuit.kind !== 'pulled-down-in') return undefined;
  const supply = circuitsOfKind(machine, 'power-out').find(
    (each) => each.part.name === part.name && each.circuit.ends[1]?.text === back,
  );
  const volts = supply && suppliedVolts(machine, supply.part, supply.circuit);
  if (!supply || volts === undefined) return undefined;
  const ratio = volts / ((figure(circuit, 'on-above') ?? Number.NaN) * RESERVE) - 1;
  const ohms = nextStandardValue((inside * ratio) / STEP, 'E12');
  return { from: terminalId(part.name, supply.circuit.ends[0]?.text ?? ''), volts, ohms };
}
