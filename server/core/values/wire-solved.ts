import { reachFrom } from '../circuits/reach-from.ts';
import type { SupplyEnd } from '../circuits/solve/board.ts';
import type { Supply } from '../circuits/solve/rails.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import { type Reach, slotsTo } from '../circuits/ways.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { factIndex } from '../reuse/fact-index.ts';
import { factOver } from '../reuse/fact-over.ts';
import { mapEach } from '../reuse/map-each.ts';
import { formatBest } from '../units/index.ts';
import { currentsOfGroup, type GroupCurrents, type RailEnd, type RailEnds } from './group-currents.ts';
import { type Draw, keepSameDraws } from './wire-draws.ts';

/** What the circuits of one group carry, each in the state in which it is most. */
export interface SolvedCurrents {
  /** By the slot of a conductor: the most that flows through a wire of a signal in any of its states, in A. */
  readonly inWires: ReadonlyMap<object, number>;
  /** What the circuits take from the rails and give back, through the wires of these. */
  readonly draws: readonly Draw[];
}

/** What the groups with inputs carry, in the order of these. */
const groupCurrents = fact('machine', (machine: Machine): readonly GroupCurrents[] => {
  const { inputs, byGroup, places } = circuitsOf(machine).solved;
  return currentsIn(
    inputs.flatMap(({ element }) => {
      const group = byGroup[places.ofElement[element] ?? -1];
      return group?.[0]?.element === element ? [group] : [];
    }),
  );
});

/**
 * The inputs of a group are the same list while no edit touches it, and then it carries what it carried. The supplies on its
 * rails are the same too: where these come to hold other nodes, everything is solved anew.
 */
const currentsIn = mapEach(currentsOfGroup);

/** Reads the currents out of all circuits that were solved, group by group. */
export const solvedCurrents = factOver(
  'machine',
  groupCurrents,
  (machine: Machine, { inWires, rails }): SolvedCurrents => ({
    inWires,
    draws: rails.flatMap((rail) => drawsOn(machine, rail)),
  }),
  (before, now) => {
    const draws = keepSameDraws(before.draws, now.draws);
    return before.inWires === now.inWires && before.draws === draws ? before : { ...now, draws };
  },
);

/**
 * What coils, sensors and signals take from a supply at most, in A, by `part.circuit` of it: each circuit in the state in
 * which it takes most, as it was solved. Undefined where they take nothing.
 */
export const takenBySignals = factIndex(
  'machine',
  groupCurrents,
  ({ rails }) => rails.flatMap(({ fedBy }) => (fedBy ? [nameOf(fedBy)] : [])),
  (groups, name: string): number => {
    const rails = groups
      .flatMap((group) => group.rails)
      .filter(({ fedBy }) => fedBy && nameOf(fedBy) === name);
    return rails.reduce((sum, { taken }) => sum + taken, 0);
  },
  Object.is,
);

const nameOf = ({ at: { part, circuit } }: Supply): string => `${part.name}.${circuit.name}`;

/** The ways from each end to the supply that the circuit as a whole hangs on: what comes out at one end goes in at another. */
function drawsOn(machine: Machine, { ends, supplies }: RailEnds): Draw[] {
  const shortest = supplies
    .map((end) => wayTo(reachFrom(machine, end.terminal, false), end, ends))
    .sort(byLength);
  return ends.flatMap(({ name, terminal, amps }): Draw[] => {
    const path = shortest.find(({ paths }) => paths.has(terminal))?.paths.get(terminal);
    const input = { name, value: amps, shown: formatBest(amps, 'current', 4) };
    return path ? [{ term: `{${name}}`, input, amps, path }] : [];
  });
}

/** How all ends of a circuit on one rail reach a supply of that rail. */
interface WayToSupply {
  readonly name: string;
  /** By the terminal of the end; absent for an end that no wire leads to. */
  readonly paths: ReadonlyMap<number, readonly object[]>;
  readonly length: number;
}

function wayTo(reach: Reach, { supply }: SupplyEnd, ends: readonly RailEnd[]): WayToSupply {
  const paths = new Map(
    ends.flatMap(({ terminal }): [number, readonly object[]][] => {
      const path = slotsTo(reach, terminal);
      return path ? [[terminal, path]] : [];
    }),
  );
  const length = [...paths.values()].reduce((sum, path) => sum + path.length, 0);
  return { name: nameOf(supply), paths, length };
}

/** The supply that most ends reach, by the shortest ways; the name decides between equals, whatever was written first. */
function byLength(a: WayToSupply, b: WayToSupply): number {
  return b.paths.size - a.paths.size || a.length - b.length || (a.name < b.name ? -1 : 1);
}
