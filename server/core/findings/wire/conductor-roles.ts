import type { MachineAnalysis } from '../../analysis.ts';
import { terminalId } from '../../circuits/nets.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { placeOfEnd, reachOf, waysOf } from '../../circuits/ways.ts';
import { MAINS, mainsTerminals } from '../../model/resolve.ts';
import type { Link } from '../../model/wiring.ts';

/** What a conductor is there for, as far as a colour convention asks. */
export type ConductorRole = 'earth' | 'live' | 'neutral' | 'dc-power' | 'dc-control' | 'dc-mixed';

interface Roles {
  readonly roleOf: (link: Link) => ConductorRole | undefined;
  /** True for links of a net that protective earth is on. */
  readonly onEarth: (link: Link) => boolean;
}

const kept = new WeakMap<MachineAnalysis, Roles>();

/** What each conductor is there for; undefined for signals, motor phases, and where parts are not known. */
export function rolesOf(analysis: MachineAnalysis): Roles {
  let roles = kept.get(analysis);
  if (!roles) {
    roles = findRoles(analysis);
    kept.set(analysis, roles);
  }
  return roles;
}

function findRoles({ machine }: MachineAnalysis): Roles {
  const ways = waysOf(machine);
  const placesFrom = (start: number | undefined, closed: boolean): readonly number[] =>
    start === undefined ? [] : reachOf(ways, start, closed).order;
  const mains = (wanted: RegExp) =>
    new Set(
      mainsTerminals(machine)
        .filter((terminal) => wanted.test(terminal))
        .flatMap((terminal) => placesFrom(ways.placeOf.get(terminalId(MAINS, terminal)), true)),
    );
  const [live, neutral] = [mains(/^L/), mains(/^N$/)];
  const earthEnds = new Set<number>();
  const earthMains = ways.placeOf.get(terminalId(MAINS, 'PE'));
  if (earthMains !== undefined) earthEnds.add(earthMains);
  for (const at of circuitsOfKind(machine, 'earth')) {
    const place = placeOfEnd(ways, at, 0);
    if (place !== undefined) earthEnds.add(place);
  }
  const earth = new Set([...earthEnds].flatMap((place) => placesFrom(place, false)));
  const rails = new Map<number, ConductorRole>();
  for (const supply of circuitsOfKind(machine, 'power-out')) {
    if (supply.part.sheet?.partClass !== 'supply') continue;
    for (const index of [0, 1]) {
      const places = placesFrom(placeOfEnd(ways, supply, index), false);
      const role = roleOfRail(machine, places, ways.terminals);
      for (const place of places)
        rails.set(place, rails.has(place) && rails.get(place) !== role ? 'dc-mixed' : role);
    }
  }
  const placesOf = ({ from, to }: Link) =>
    [from, to].flatMap(({ part, terminal }) => ways.placeOf.get(terminalId(part, terminal)) ?? []);
  return {
    onEarth: (link) => placesOf(link).some((place) => earth.has(place)),
    roleOf: (link) => {
      const places = placesOf(link);
      const [place] = places;
      if (place === undefined) return undefined;
      if (places.some((each) => earthEnds.has(each))) return 'earth';
      // Where 0 V is bonded to earth, which of the two a link is cannot be told from the net.
      if (earth.has(place)) return rails.has(place) ? undefined : 'earth';
      if (live.has(place)) return 'live';
      return neutral.has(place) ? 'neutral' : rails.get(place);
    },
  };
}

/** A rail for drives alone is a power circuit, one for anything else a control circuit; one for both is mixed. */
function roleOfRail(
  machine: MachineAnalysis['machine'],
  places: readonly number[],
  terminals: readonly string[],
): ConductorRole {
  const there = new Set(places.map((place) => terminals[place]));
  const isThere = ({ part, circuit }: CircuitAt) =>
    circuit.ends.some((end) => there.has(terminalId(part.name, end.text)));
  const loads = circuitsOfKind(machine, 'power-in').filter(isThere);
  const drives = loads.filter(({ part }) => part.sheet?.partClass === 'drive');
  if (drives.length === 0) return 'dc-control';
  return drives.length === loads.length ? 'dc-power' : 'dc-mixed';
}

/** True when the sheets of both ends are known. */
export function isKnown({ machine }: MachineAnalysis, { from, to }: Link): boolean {
  return [from, to].every(({ part }) => part === MAINS || machine.parts.get(part)?.sheet !== undefined);
}
