import type { Drawing, DrawnPart } from './drawing.ts';
import type { JoinedLink } from './ends.ts';
import { stepOf } from './ranks.ts';

/** The rim of a block on which a terminal stands; `both` is a row right through, as on a terminal strip. */
export type Side = 'left' | 'right' | 'both';

const THROUGH: ReadonlySet<string> = new Set(['terminal-strip']);

/**
 * The side of each terminal of each part: towards what it is joined to. A group of terminals stays together unless its
 * links pull both ways; the printed order is kept on either side.
 * @param kept the sides of terminals that stand already, by their ids
 */
export function chooseSides(
  drawing: Drawing,
  links: readonly JoinedLink[],
  columns: readonly number[],
  kept: ReadonlyMap<string, Side> = new Map(),
): readonly (readonly Side[])[] {
  const pulls = drawing.parts.map(({ terminals }) => terminals.map(() => 0));
  for (const link of links) {
    const { from, to } = link;
    const step = stepOf(link, columns);
    pull(pulls, from.part, from.terminal, step);
    pull(pulls, to.part, to.terminal, -step);
  }
  return drawing.parts.map((part, number) => chooseForPart(part, pulls[number] ?? [], kept));
}

function pull(pulls: number[][], part: number, terminal: number, step: number): void {
  const row = pulls[part];
  if (row) row[terminal] = (row[terminal] ?? 0) + step;
}

function chooseForPart(
  { terminals, partClass }: DrawnPart,
  pulls: readonly number[],
  kept: ReadonlyMap<string, Side>,
): readonly Side[] {
  if (THROUGH.has(partClass)) return terminals.map(() => 'both');
  const sides: Side[] = [];
  const rows = { left: 0, right: 0, both: 0 };
  for (let start = 0; start < terminals.length; ) {
    let end = start + 1;
    while (end < terminals.length && terminals[end]?.group === terminals[start]?.group) end++;
    const shorter: Side = rows.right < rows.left ? 'right' : 'left';
    const chosen = chooseForGroup(pulls.slice(start, end), shorter);
    for (const [place, wanted] of chosen.entries()) {
      const side = kept.get(terminals[start + place]?.id ?? '') ?? wanted;
      sides.push(side);
      rows[side]++;
    }
    start = end;
  }
  return sides;
}

/** A group that pulls three to one or more goes as a whole; else each terminal goes its way, unwired ones with the last. */
function chooseForGroup(pulls: readonly number[], otherwise: Side): readonly Side[] {
  const left = pulls.filter((amount) => amount < 0).length;
  const right = pulls.filter((amount) => amount > 0).length;
  const majority: Side = left === right ? otherwise : left > right ? 'left' : 'right';
  if (Math.max(left, right) >= 3 * Math.min(left, right)) return pulls.map(() => majority);
  let last = majority;
  return pulls.map((amount) => {
    if (amount !== 0) last = amount < 0 ? 'left' : 'right';
    return last;
  });
}
