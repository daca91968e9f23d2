import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { Span } from '../../syntax/node.ts';
import { supplyVoltage } from '../../values/supply.ts';

/** Loads that state one voltage and no span bear so much more or less (common practice, no source). */
const TOLERANCE = 0.1;

/** The voltages that a load takes. */
export interface Taken {
  /** In volts. */
  readonly least: number;
  readonly most: number;
  /** As its sheet says it, and where. */
  readonly text: string;
  readonly at: Span;
}

/** What a load takes; a single figure with its tolerance, undefined where its sheet does not say. */
export function voltageTaken({ circuit }: CircuitAt): Taken | undefined {
  const given = circuit.figures.span('voltage');
  if (!given) return undefined;
  const { least, most } = given.value;
  const slack = least.value === most.value ? Math.abs(least.value) * TOLERANCE : 0;
  return { least: least.value - slack, most: most.value + slack, text: given.text, at: given.at };
}

/** Whether a voltage, in volts, is more or less than a load takes. */
export function isOutside(volts: number, { least, most }: Taken): boolean {
  return volts < least || volts > most;
}

/** Whether a supply gives what a load takes. A load that states no voltage takes any. */
export function fitsLoad({ machine }: MachineAnalysis, supply: CircuitAt, load: CircuitAt): boolean {
  const taken = voltageTaken(load);
  if (!taken) return true;
  const voltage = supplyVoltage(machine, { supply })?.value ?? Number.NaN;
  return voltage >= taken.least && voltage <= taken.most;
}
