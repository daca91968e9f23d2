import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { circuitsIn } from '../model/sheet-circuits.ts';
import { type FactMap, factMap } from '../reuse/fact-map.ts';
import { placeOfEnd } from './places.ts';
import { reachFromEnd } from './reach-from.ts';
import { type CircuitAt, circuitAt } from './signals.ts';
import { circuitsOfKind } from './supply.ts';

/*
 * Which drive is wired to which motor: through links, connectors, fuses and contacts, which count as closed.
 */

/** By the place of an end: which circuit of a kind stands there; the first where two do. */
export const windingAt = ownersOf('winding');
export const threePhaseAt = ownersOf('three-phase-in');
const phaseAt = ownersOf('phase-out');
const threePhaseOutAt = ownersOf('three-phase-out');

/** The circuits that feed motors, and those that are fed. */
const FEEDING = ['phase-out', 'three-phase-out'];
const FED = ['winding', 'three-phase-in'];

/** The names of the parts whose windings a drive reaches, nearest first. */
export function motorsReachedBy(machine: Machine, drive: Part): readonly string[] {
  return partsReached(machine, drive, FEEDING, [windingAt, threePhaseAt]);
}

/** The names of the drives that reach the windings of a motor, nearest first. */
export function drivesReaching(machine: Machine, motor: Part): readonly string[] {
  return partsReached(machine, motor, FED, [phaseAt, threePhaseOutAt]);
}

function ownersOf(kind: string): FactMap<Machine, number, CircuitAt> {
  return factMap('machine', (machine) => {
    const owners = new Map<number, CircuitAt>();
    for (const owner of circuitsOfKind(machine, kind)) {
      for (const index of owner.circuit.ends.keys()) {
        const place = placeOfEnd(machine, owner, index);
        if (place !== undefined && !owners.has(place)) owners.set(place, owner);
      }
    }
    return owners;
  });
}

function partsReached(
  machine: Machine,
  part: Part,
  kinds: readonly string[],
  owners: readonly FactMap<Machine, number, CircuitAt>[],
): readonly string[] {
  const { sheet } = part;
  const found = new Set<string>();
  for (const circuit of sheet ? kinds.flatMap((kind) => circuitsIn(sheet, kind)) : []) {
    for (const index of circuit.ends.keys()) {
      const reach = reachFromEnd(machine, circuitAt(part, circuit), index);
      for (const place of reach?.order ?? [])
        for (const owner of owners) {
          const at = owner.get(machine, place);
          if (at) found.add(at.part.name);
        }
    }
  }
  return [...found];
}
