import type { Drawing } from './drawing.ts';
import type { JoinedLink } from './ends.ts';

/**
 * How far from the mains, on the way of current and signals, parts of a class stand: from the mains over supplies and
 * switches and the controller to the drives and what they move. Common practice in drawings, no source.
 */
const RANKS: ReadonlyMap<string, number> = new Map([
  ['mains', 0],
  ['supply', 3],
  ['emergency-stop', 4],
  ['switch', 4],
  ['sensor', 4],
  ['probe', 4],
  ['handwheel', 4],
  ['controller', 6],
  ['drive', 8],
  ['converter', 8],
  ['motor', 10],
  ['spindle', 10],
]);
const MIDDLE = 6;
const ROUNDS = 40;

/**
 * The column of each part: parts of about the same rank stand above one another. Fuses, strips, relays and whatever else
 * stands in the way of others have no rank of their own: each takes the mean of those that it joins, over and over,
 * until all of them lie in line between their neighbours. Earth links count only for what has no others, since earth
 * goes everywhere.
 * @param kept the columns of parts that stand already, by their ids
 */
export function chooseColumns(
  drawing: Drawing,
  links: readonly JoinedLink[],
  kept: ReadonlyMap<string, number> = new Map(),
): readonly number[] {
  const ranks = drawing.parts.map(({ partClass }) => RANKS.get(partClass) ?? MIDDLE);
  const between = listNeighbours(drawing, links);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [part, others] of between) {
      ranks[part] = others.reduce((sum, other) => sum + (ranks[other] ?? MIDDLE), 0) / others.length;
    }
  }
  const columns = ranks.map(Math.round);
  return drawing.parts.map(({ id, rail }, part) => {
    const own = columns[part] ?? MIDDLE;
    const others = (between.get(part) ?? []).map((other) => columns[other] ?? MIDDLE);
    return kept.get(id) ?? (rail ? columnOfRail(others) : undefined) ?? columnOfEnd(others) ?? own;
  });
}

/** What hangs on one column alone, such as a lamp, stands next to it. */
function columnOfEnd([first, ...others]: readonly number[]): number | undefined {
  return first !== undefined && others.every((other) => other === first) ? first + 1 : undefined;
}

/** A bar that serves many parts of one column, such as switches, stands just ahead of them, as a rail does in a drawing. */
function columnOfRail(others: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const other of others) counts.set(other, (counts.get(other) ?? 0) + 1);
  const [most] = [...counts].sort(([, a], [, b]) => b - a);
  return most && most[1] >= 3 && most[1] >= others.length * 0.6 ? most[0] - 1 : undefined;
}

function listNeighbours(
  drawing: Drawing,
  links: readonly JoinedLink[],
): ReadonlyMap<number, readonly number[]> {
  const between = new Map<number, readonly number[]>();
  drawing.parts.forEach(({ partClass }, part) => {
    if (RANKS.has(partClass)) return;
    const own = links.filter(({ from, to }) => (from.part === part) !== (to.part === part));
    const live = own.filter(({ link }) => link.kind !== 'earth');
    const others = (live.length > 0 ? live : own).map(({ from, to }) =>
      from.part === part ? to.part : from.part,
    );
    if (others.length > 0) between.set(part, others);
  });
  return between;
}

/** 1 when a link runs towards a later column, -1 when it runs back, 0 within one. */
export function stepOf({ from, to }: JoinedLink, columns: readonly number[]): -1 | 0 | 1 {
  const step = (columns[to.part] ?? MIDDLE) - (columns[from.part] ?? MIDDLE);
  return step > 0 ? 1 : step < 0 ? -1 : 0;
}
