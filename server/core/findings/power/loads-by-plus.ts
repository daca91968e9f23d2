import { placeOfEnd } from '../../circuits/places.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { groupBy } from '../../group.ts';
import type { Machine } from '../../model/resolve.ts';
import { factMap } from '../../reuse/fact-map.ts';
import { isSameList } from '../../same-list.ts';

/** By the place of a terminal: the loads and sensors whose plus it is. */
export const loadsByPlus = factMap(
  'machine',
  (machine: Machine): ReadonlyMap<number | undefined, readonly CircuitAt[]> =>
    groupBy(
      ['power-in', 'sensor'].flatMap((kind) => circuitsOfKind(machine, kind)),
      (load) => placeOfEnd(machine, load, 0),
    ),
  isSameList,
);
