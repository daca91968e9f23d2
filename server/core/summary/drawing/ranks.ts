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
 * The rank of each part. Fuses, strips, relays and whatever else stands in the way of others have none of their own:
 * each takes the mean of those that it joins, over and over, until all of them lie in line between their neighbours.
 * Earth links count only for what has no others, since earth goes everywhere.
 */
export function rankParts(drawing: Drawing, links: readonly JoinedLink[]): readonly number[] {
  const ranks = drawing.parts.map(({ partClass }) => RANKS.get(partClass) ?? MIDDLE);
  const between = listNeighbours(drawing, links);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [part, others] of between) {
      ranks[part] = others.reduce((sum, other) => sum + (ranks[other] ?? MIDDLE), 0) / others.length;
    }
  }
  drawing.parts.forEach(({ rail }, part) => {
    if (rail) ranks[part] = rankRail(between.get(part) ?? [], ranks) ?? ranks[part] ?? MIDDLE;
  });
  return ranks;
}

/** A bar that serves many parts of one rank, such as switches, stands ahead of them, as a rail does in a drawing. */
function rankRail(others: readonly number[], ranks: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const other of others)
    counts.set(ranks[other] ?? MIDDLE, (counts.get(ranks[other] ?? MIDDLE) ?? 0) + 1);
  const [most] = [...counts].sort(([, a], [, b]) => b - a);
  return most && most[1] >= 3 && most[1] >= others.length * 0.6 ? most[0] - 0.5 : undefined;
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

/** 1 when a link runs towards a higher rank, -1 when it runs back, 0 within one rank. */
export function stepOf({ from, to }: JoinedLink, ranks: readonly number[]): -1 | 0 | 1 {
  const step = (ranks[to.part] ?? MIDDLE) - (ranks[from.part] ?? MIDDLE);
  if (Math.abs(step) < 1e-6) return 0;
  return step > 0 ? 1 : -1;
}
