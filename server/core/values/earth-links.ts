import { MAINS, type Machine, partsWithSheets } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import { colourOf } from '../model/wire-text.ts';
import type { Link } from '../model/wiring.ts';
import { fact } from '../reuse/fact.ts';

/** Whether a link is a protective conductor, by its colour or by where it ends: it carries nothing and warms nothing. */
export function isEarth(machine: Machine, link: Link): boolean {
  const earth = earthEnds(machine);
  return colourOf(link) === 'GNYE' || endsOf(link).some((end) => earth.has(end));
}

/** Whether a link ends at a terminal for three phases. */
export function isThreePhase(machine: Machine, link: Link): boolean {
  const ends = threePhaseEnds(machine);
  return endsOf(link).some((end) => ends.has(end));
}

const earthEnds = fact(
  'machine',
  (machine: Machine): ReadonlySet<string> =>
    new Set([terminalId(MAINS, 'PE'), ...endsOfKind(machine, (kind) => kind === 'earth')]),
);

const threePhaseEnds = fact(
  'machine',
  (machine: Machine): ReadonlySet<string> =>
    new Set(endsOfKind(machine, (kind) => kind.startsWith('three-phase'))),
);

function endsOfKind(machine: Machine, isWanted: (kind: string) => boolean): string[] {
  return partsWithSheets(machine).flatMap(({ part, sheet }) =>
    [...sheet.circuits.values()]
      .filter(({ kind }) => isWanted(kind))
      .flatMap(({ ends }) => ends.map((end) => terminalId(part.name, end.text))),
  );
}

function endsOf({ from, to }: Link): readonly string[] {
  return [from.id, to.id];
}
