import type { Nets } from '../circuits/nets.ts';
import type { Feed } from '../circuits/supply.ts';
import type { Machine } from '../model/resolve.ts';
import { deriveAxes } from './axis.ts';
import { deriveBacklash } from './backlash.ts';
import { deriveCircuits } from './circuits.ts';
import { createCollector } from './collect.ts';
import { gatherValues, type Values } from './derived.ts';
import { deriveHandwheel } from './handwheel.ts';
import { deriveRecords } from './records.ts';
import { deriveSettings } from './settings.ts';
import { shownUnits } from './shown-in.ts';
import { deriveSpindle } from './spindle.ts';
import { deriveSupplies } from './supply.ts';
import { deriveLoads } from './supply-load.ts';
import { deriveWires } from './wires.ts';

/**
 * Computes every derived value of a machine, in the order in which they rest on each other. Never throws: what cannot
 * be computed is listed with what it lacks.
 */
export function deriveValues(machine: Machine, nets: Nets, feeds: readonly Feed[]): Values {
  const out = createCollector(shownUnits(machine));
  deriveSupplies(machine, feeds, out);
  deriveLoads(machine, feeds, out);
  deriveAxes(machine, nets, out);
  deriveSpindle(machine, out);
  deriveHandwheel(machine, out);
  deriveRecords(machine, out);
  deriveBacklash(machine, out);
  deriveSettings(machine, nets, out);
  deriveCircuits(machine, nets, out);
  deriveWires(machine, feeds, out);
  return gatherValues(out.derived, out.missing);
}
