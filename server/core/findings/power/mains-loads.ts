import type { MachineAnalysis } from '../../analysis.ts';
import { placeOfEnd, placeOfTerminal } from '../../circuits/places.ts';
import { reachFrom } from '../../circuits/reach-from.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import type { Reach } from '../../circuits/ways.ts';
import { MAINS, type Machine, mainsTerminals } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import type { Given } from '../../shape/fields.ts';
import type { Mains } from '../../shape/mains.ts';
import { isFaulty } from '../common/held-back.ts';
import { type Taken, voltageTaken } from '../common/voltage.ts';

/** A part on the mains, with the voltage that reaches it and what it takes. */
export interface MainsLoad {
  readonly load: CircuitAt;
  /** In volts. */
  readonly volts: number;
  /** Whether it hangs between two phases. */
  readonly between: boolean;
  readonly taken: Taken;
}

/** The mains of a machine and what they feed wrongly. */
interface MainsLoads {
  /** Undefined where they are not stated, or are at fault. */
  readonly mains: Given<Mains> | undefined;
  readonly outside: readonly MainsLoad[];
  /** True where no part on the mains takes their voltage. */
  readonly suitsNone: boolean;
}

/** Compares the mains with what each part on them takes. */
export const mainsLoads = fact('analysis', compareMains);

function compareMains(analysis: MachineAnalysis): MainsLoads {
  const mains = analysis.machine.fields.mains('mains');
  if (!mains || isFaulty(analysis, mains.at)) return { mains: undefined, outside: [], suitsNone: false };
  const line = mains.value.voltage.value;
  const reached = reachedByMains(analysis.machine);
  const loads = ['mains-in', 'three-phase-in'].flatMap((kind) =>
    circuitsOfKind(analysis.machine, kind).flatMap((load): MainsLoad[] => {
      const taken = voltageTaken(load);
      const between = taken && isBetweenPhases(analysis.machine, reached, load);
      if (!taken || between === undefined) return [];
      // With three phases the figure is that between two of them.
      const isThree = mains.value.phases === 3;
      const volts = isThree && !between ? line / Math.sqrt(3) : line;
      return [{ load, taken, between: isThree && between, volts }];
    }),
  );
  const outside = loads.filter(({ volts, taken }) => !fits(volts, taken.least, taken.most));
  return { mains, outside, suitsNone: outside.length > 0 && outside.length === loads.length };
}

/** Makers state nominal voltages; 400 V between phases give 230.9 V to neutral, which a part for 230 V takes. */
function fits(volts: number, least: number, most: number): boolean {
  return volts >= least * 0.995 && volts <= most * 1.005;
}

/** Whether a part hangs between two phases; undefined where the mains do not reach it. */
function isBetweenPhases(
  machine: Machine,
  reached: readonly ReachedByMains[],
  load: CircuitAt,
): boolean | undefined {
  const names = load.circuit.ends.slice(0, 2).map((_, index) => {
    const place = placeOfEnd(machine, load, index);
    return place === undefined ? undefined : reached.find(({ by }) => by.has(place))?.terminal;
  });
  if (names.some((name) => name === undefined || name === 'PE')) return undefined;
  return names.every((name) => name !== 'N');
}

/** What a terminal of the mains reaches. */
interface ReachedByMains extends Pick<Reach, 'by'> {
  readonly terminal: string;
}

function reachedByMains(machine: Machine): ReachedByMains[] {
  return mainsTerminals(machine).flatMap((terminal) => {
    const start = placeOfTerminal(machine, MAINS, terminal);
    return start === undefined ? [] : [{ terminal, by: reachFrom(machine, start).by }];
  });
}
