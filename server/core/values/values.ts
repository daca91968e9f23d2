import type { Nets } from '../circuits/nets.ts';
import type { Feed } from '../circuits/supply.ts';
import type { Machine } from '../model/resolve.ts';
import { deriveAxis } from './axis.ts';
import { createCollector } from './collect.ts';
import { gatherValues, type Values } from './derived.ts';
import { deriveSettings } from './settings.ts';
import { deriveSupplies } from './supply.ts';

/**
 * Computes every derived value of a machine, in the order in which they rest on each other. Never throws: what cannot
 * be computed is listed with what it lacks.
 */
export function deriveValues(machine: Machine, nets: Nets, feeds: readonly Feed[]): Values {
  const out = createCollector();
  deriveSupplies(machine, feeds, out);
  for (const axis of machine.axes.values()) deriveAxis(machine, nets, axis, out);
  deriveSettings(machine, new Map(out.derived.map((value) => [value.address, value])), out);
  return gatherValues(out.derived, out.missing);
}
