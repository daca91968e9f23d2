import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { placeOfEnd, reachOf, type Ways, wayNetOf } from '../../circuits/ways.ts';
import { groupBy } from '../../group.ts';
import { MAINS, type Machine, mainsTerminals } from '../../model/resolve.ts';
import { type TerminalId, terminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import { factMap } from '../../reuse/fact-map.ts';

/** What a conductor is there for, as far as a colour convention asks. */
export type ConductorRole = 'earth' | 'live' | 'neutral' | 'dc-power' | 'dc-control' | 'dc-mixed';

/** What stands on the net of a terminal. */
interface Standing {
  /** What a conductor there is for; undefined for signals and motor phases, and where it cannot be told. */
  readonly role: ConductorRole | undefined;
  /** True for an end of protective earth itself. */
  readonly isEarthEnd: boolean;
  readonly isOnEarth: boolean;
}

/** By terminal; the same object wherever the same stands. */
const standingAt = factMap<MachineAnalysis, TerminalId, Standing>('analysis', findStandings);

const ROLES = [undefined, 'earth', 'live', 'neutral', 'dc-power', 'dc-control', 'dc-mixed'] as const;

const STANDINGS: readonly Standing[] = ROLES.flatMap((role) =>
  [false, true].flatMap((isEarthEnd) =>
    [false, true].map((isOnEarth): Standing => ({ role, isEarthEnd, isOnEarth })),
  ),
);

function standing(role: Standing['role'], isEarthEnd: boolean, isOnEarth: boolean): Standing | undefined {
  return STANDINGS[4 * ROLES.indexOf(role) + 2 * Number(isEarthEnd) + Number(isOnEarth)];
}

/** What a conductor is there for; undefined for signals, motor phases, and where parts are not known. */
export function roleOf(analysis: MachineAnalysis, link: Link): ConductorRole | undefined {
  const ends = standingsOf(analysis, link);
  return ends.some((end) => end?.isEarthEnd) ? 'earth' : ends[0]?.role;
}

/** True for links of a net that protective earth is on. */
export function isOnEarth(analysis: MachineAnalysis, link: Link): boolean {
  return standingsOf(analysis, link).some((end) => end?.isOnEarth);
}

function standingsOf(analysis: MachineAnalysis, { from, to }: Link): (Standing | undefined)[] {
  return [from, to].map(({ part, terminal }) => standingAt.get(analysis, terminalId(part, terminal)));
}

function findStandings({ machine }: MachineAnalysis): ReadonlyMap<TerminalId, Standing> {
  const ways = wayNetOf(machine);
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
  const earth = new Set<number>();
  for (const end of earthEnds)
    if (!earth.has(end)) for (const place of placesFrom(end, false)) earth.add(place);
  const loads = loadsByPlace(machine, ways);
  const rails = new Map<number, ConductorRole>();
  for (const supply of circuitsOfKind(machine, 'power-out')) {
    if (supply.part.sheet?.partClass !== 'supply') continue;
    for (const index of [0, 1]) {
      const places = placesFrom(placeOfEnd(ways, supply, index), false);
      const role = roleOfRail(places, loads);
      for (const place of places)
        rails.set(place, rails.has(place) && rails.get(place) !== role ? 'dc-mixed' : role);
    }
  }
  const roleAt = (place: number): ConductorRole | undefined => {
    // Where 0 V is bonded to earth, which of the two a link is cannot be told from the net.
    if (earth.has(place)) return rails.has(place) ? undefined : 'earth';
    if (live.has(place)) return 'live';
    return neutral.has(place) ? 'neutral' : rails.get(place);
  };
  const found = new Map<TerminalId, Standing>();
  for (const places of [earth, live, neutral, rails.keys()])
    for (const place of places) {
      const told = standing(roleAt(place), earthEnds.has(place), earth.has(place));
      if (told) found.set(ways.terminals[place] ?? '', told);
    }
  return found;
}

/** What is fed at each place. */
function loadsByPlace(machine: MachineAnalysis['machine'], ways: Ways): ReadonlyMap<number, CircuitAt[]> {
  const ends = circuitsOfKind(machine, 'power-in').flatMap((load) =>
    load.circuit.ends.flatMap((_, index) => {
      const place = placeOfEnd(ways, load, index);
      return place === undefined ? [] : [{ load, place }];
    }),
  );
  return new Map(
    [...groupBy(ends, ({ place }) => place)].map(([place, at]) => [place, at.map(({ load }) => load)]),
  );
}

/** A rail for drives alone is a power circuit, one for anything else a control circuit; one for both is mixed. */
function roleOfRail(places: readonly number[], loads: ReadonlyMap<number, CircuitAt[]>): ConductorRole {
  const fed = places.flatMap((place) => loads.get(place) ?? []);
  const areDrives = fed.map(({ part }) => part.sheet?.partClass === 'drive');
  if (!areDrives.includes(true)) return 'dc-control';
  return areDrives.includes(false) ? 'dc-mixed' : 'dc-power';
}

/** True when the sheets of both ends are known. */
export function isKnown({ machine }: MachineAnalysis, { from, to }: Link): boolean {
  return [from, to].every(({ part }) => part === MAINS || knownParts.get(machine, part) === true);
}

/** By name: the parts whose sheets are known. */
const knownParts = factMap<Machine, string, true>(
  'machine',
  ({ parts }) => new Map([...parts.values()].flatMap(({ name, sheet }) => (sheet ? [[name, true]] : []))),
);
