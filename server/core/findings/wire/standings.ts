import { placeOfEnd, placeOfTerminal } from '../../circuits/places.ts';
import { reachFrom, reachFromEnd } from '../../circuits/reach-from.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { MAINS, type Machine, mainsTerminals } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import { factIndex } from '../../reuse/fact-index.ts';
import { factMap } from '../../reuse/fact-map.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { isSupplyPart } from '../../values/supply-load.ts';

/** What a conductor is there for, as far as a colour convention asks. */
export type ConductorRole = 'earth' | 'live' | 'neutral' | 'dc-power' | 'dc-control' | 'dc-mixed';

/** What stands on the net of a terminal. */
export interface Standing {
  /** What a conductor there is for; undefined for signals and motor phases, and where it cannot be told. */
  readonly role: ConductorRole | undefined;
  /** True for an end of protective earth itself. */
  readonly isEarthEnd: boolean;
  readonly isOnEarth: boolean;
}

/** A stretch of the wiring, and what a conductor there is for, as far as one source of it tells. */
interface Stretch {
  readonly is: 'earth' | 'earth end' | 'live' | 'neutral' | 'rail';
  /** Of a rail. */
  readonly role?: ConductorRole;
  readonly places: readonly number[];
}

const stretches = fact('machine', (machine: Machine): readonly Stretch[] =>
  [earthStretches, earthEnds, mainsStretches, plusRails, minusRails].flatMap((each) =>
    each(machine).filter((stretch) => stretch !== undefined),
  ),
);

/** By the place of a terminal; the same object wherever the same stands. */
export const standingAt = factIndex<Machine, Stretch, number, Standing | undefined>(
  'machine',
  stretches,
  ({ places }) => places,
  tellStanding,
  Object.is,
);

const ROLES = [undefined, 'earth', 'live', 'neutral', 'dc-power', 'dc-control', 'dc-mixed'] as const;

const STANDINGS: readonly Standing[] = ROLES.flatMap((role) =>
  [false, true].flatMap((isEarthEnd) =>
    [false, true].map((isOnEarth): Standing => ({ role, isEarthEnd, isOnEarth })),
  ),
);

function standing(role: Standing['role'], isEarthEnd: boolean, isOnEarth: boolean): Standing | undefined {
  return STANDINGS[4 * ROLES.indexOf(role) + 2 * Number(isEarthEnd) + Number(isOnEarth)];
}

function tellStanding(there: readonly Stretch[]): Standing | undefined {
  const has = (what: Stretch['is']): boolean => there.some(({ is }) => is === what);
  const roles = new Set(there.flatMap(({ role }) => role ?? []));
  const [rail] = roles;
  const isOnEarth = has('earth');
  const role = (): ConductorRole | undefined => {
    // Where 0 V is bonded to earth, which of the two a link is cannot be told from the net.
    if (isOnEarth) return rail ? undefined : 'earth';
    if (has('live')) return 'live';
    if (has('neutral')) return 'neutral';
    return roles.size > 1 ? 'dc-mixed' : rail;
  };
  return standing(role(), has('earth end'), isOnEarth);
}

/** The live and neutral terminals of the mains, and what they reach through contacts. */
const mainsStretches = factOver(
  'machine',
  (machine: Machine) => mainsTerminals(machine).filter((terminal) => /^L|^N$/.test(terminal)),
  (machine: Machine, terminal): Stretch | undefined => {
    const place = placeOfTerminal(machine, MAINS, terminal);
    if (place === undefined) return undefined;
    return { is: terminal === 'N' ? 'neutral' : 'live', places: reachFrom(machine, place).order };
  },
);

/** The places of protective earth itself: of the mains, and of the parts. */
const earthPlaces = fact('machine', (machine: Machine): readonly number[] => {
  const places = [
    placeOfTerminal(machine, MAINS, 'PE'),
    ...circuitsOfKind(machine, 'earth').map((at) => placeOfEnd(machine, at, 0)),
  ];
  return [...new Set(places.filter((place) => place !== undefined))];
});

const earthEnds = fact('machine', (machine: Machine): readonly Stretch[] => [
  { is: 'earth end', places: earthPlaces(machine) },
]);

/** What earth reaches. Most of its ends are joined with one another, and one of these tells of all. */
const earthReaches = fact('machine', (machine: Machine): readonly (readonly number[])[] => {
  const seen = new Set<number>();
  const found: (readonly number[])[] = [];
  for (const end of earthPlaces(machine)) {
    if (seen.has(end)) continue;
    const { order } = reachFrom(machine, end, false);
    found.push(order);
    for (const place of order) seen.add(place);
  }
  return found;
});

const earthStretches = factOver(
  'machine',
  earthReaches,
  (_: Machine, places): Stretch => ({ is: 'earth', places }),
);

const plusRails = railsAt(0);
const minusRails = railsAt(1);

/** What the ends of supplies reach. */
function railsAt(index: number): (machine: Machine) => readonly (Stretch | undefined)[] {
  return factOver(
    'machine',
    (machine: Machine) => circuitsOfKind(machine, 'power-out').filter(({ part }) => isSupplyPart(part)),
    (machine: Machine, supply): Stretch | undefined => {
      const places = reachFromEnd(machine, supply, index, false)?.order;
      return places && { is: 'rail', role: roleOfRail(places, fedAt.all(machine)), places };
    },
  );
}

/** By the place of a terminal: what is fed there. */
const fedAt = factMap<Machine, number, Fed>('machine', (machine) => {
  const fed = new Map<number, Fed>();
  for (const load of circuitsOfKind(machine, 'power-in')) {
    const is = load.part.sheet?.partClass === 'drive' ? 'drives' : 'others';
    for (const index of load.circuit.ends.keys()) {
      const place = placeOfEnd(machine, load, index);
      if (place !== undefined) fed.set(place, (fed.get(place) ?? is) === is ? is : 'both');
    }
  }
  return fed;
});

type Fed = 'drives' | 'others' | 'both';

/** A rail for drives alone is a power circuit, one for anything else a control circuit; one for both is mixed. */
function roleOfRail(places: readonly number[], fedAt: ReadonlyMap<number, Fed>): ConductorRole {
  const fed = new Set(places.flatMap((place) => fedAt.get(place) ?? []));
  if (!fed.has('drives') && !fed.has('both')) return 'dc-control';
  return fed.has('others') || fed.has('both') ? 'dc-mixed' : 'dc-power';
}
