import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Link } from '../../model/wiring.ts';
import type { Data } from '../../problem.ts';
import { withCures } from '../common/cure.ts';
import type { Found } from '../rule.ts';
import { culprit, lastFirst, type RailConflict, railConflicts } from './rail-conflicts.ts';
import { removeLink } from './remove-link.ts';

/**
 * The finding for a supply in conflict, with all links of the way; to remove one of them is offered where that leaves
 * nothing else wrong.
 */
export function foundConflict(analysis: MachineAnalysis, conflict: RailConflict, data: Data): Found {
  const links = lastFirst(analysis, conflict.links);
  const last = culprit(analysis, conflict);
  const { part, circuit } = conflict.supply;
  return withCures(
    analysis,
    {
      at: last?.to.at ?? part.key,
      data: { ...data, path: showPath(conflict.path) },
      related: conflict.links
        .filter((link) => link !== last)
        .map((link) => ({ at: link.at, note: sayLink(link) })),
    },
    () => links.map((link) => removeLink(analysis, link)),
    (after) =>
      railConflicts(after).every(
        ({ supply }) => supply.part.name !== part.name || supply.circuit.name !== circuit.name,
      ),
  );
}

function sayLink({ from, to }: Link): string {
  return say`the way leads over ${from.part}.${from.terminal} and ${to.part}.${to.terminal}`;
}

/** A long way in the middle of which nobody looks. */
function showPath(path: readonly string[]): string {
  const shown = path.length > MOST_SHOWN ? [...path.slice(0, 5), '…', ...path.slice(-4)] : path;
  return shown.join(' – ');
}

const MOST_SHOWN = 10;
