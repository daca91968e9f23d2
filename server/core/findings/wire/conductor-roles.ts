import type { MachineAnalysis } from '../../analysis.ts';
import { placeOfTerminal } from '../../circuits/places.ts';
import { MAINS, type Machine } from '../../model/resolve.ts';
import type { Link } from '../../model/wiring.ts';
import { factMap } from '../../reuse/fact-map.ts';
import { type ConductorRole, type Standing, standingAt } from './standings.ts';

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
  return [from, to].map(({ part, terminal }) => {
    const place = placeOfTerminal(analysis.machine, part, terminal);
    return place === undefined ? undefined : standingAt.get(analysis.machine, place);
  });
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
