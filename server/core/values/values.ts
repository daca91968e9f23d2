import type { Nets } from '../circuits/nets.ts';
import type { Feed } from '../circuits/supply.ts';
import type { Machine } from '../model/resolve.ts';
import { deriveFeed } from './axis-feed.ts';
import { axisParts, deriveScale } from './axis-scale.ts';
import { deriveTiming } from './axis-timing.ts';
import { createCollector } from './collect.ts';
import { gatherValues, type Values } from './derived.ts';
import { deriveSettings } from './settings.ts';
import { deriveSupplies } from './supply.ts';

/** Computes every derived value of a machine. Never throws: what cannot be computed is listed with what it lacks. */
export function deriveValues(machine: Machine, nets: Nets, feeds: readonly Feed[]): Values {
  const out = createCollector();
  for (const axis of machine.axes.values()) {
    const parts = axisParts(machine, axis);
    const scale = deriveScale(machine, parts, out);
    const rate = deriveTiming(machine, nets, parts, out);
    deriveFeed(machine, parts, scale, rate, out);
  }
  deriveSupplies(machine, feeds, out);
  deriveSettings(machine, new Map(out.derived.map((value) => [value.address, value])), out);
  return gatherValues(out.derived, out.missing);
}
