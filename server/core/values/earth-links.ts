import type { Part } from '../model/machine.ts';
import { MAINS, type Machine, partsOf } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import { colourOf } from '../model/wire-text.ts';
import type { Link } from '../model/wiring.ts';
import { type FactIndex, factKeys } from '../reuse/fact-index.ts';

/** Whether a link is a protective conductor, by its colour or by where it ends: it carries nothing and warms nothing. */
export function isEarth(machine: Machine, link: Link): boolean {
  return (
    colourOf(link) === 'GNYE' ||
    endsOf(link).some((end) => end === MAINS_EARTH || earthEnds.get(machine, end) !== undefined)
  );
}

/** Whether a link ends at a terminal for three phases. */
export function isThreePhase(machine: Machine, link: Link): boolean {
  return endsOf(link).some((end) => threePhaseEnds.get(machine, end) !== undefined);
}

const MAINS_EARTH = terminalId(MAINS, 'PE');

const earthEnds = endsWhere((kind) => kind === 'earth');
const threePhaseEnds = endsWhere((kind) => kind.startsWith('three-phase'));

/** The terminals of circuits of some kind: whether one is among them rests on its own part alone. */
function endsWhere(isWanted: (kind: string) => boolean): FactIndex<Machine, string, true> {
  return factKeys('machine', partsOf, ({ name, sheet }: Part) =>
    [...(sheet?.circuits.values() ?? [])]
      .filter(({ kind }) => isWanted(kind))
      .flatMap(({ ends }) => ends.map((end) => terminalId(name, end.text))),
  );
}

function endsOf({ from, to }: Link): readonly string[] {
  return [from.id, to.id];
}
