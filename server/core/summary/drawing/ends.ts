import type { Drawing, DrawnLink } from './drawing.ts';

/** Where a terminal stands: the numbers of its part and of itself in the drawing. */
export interface End {
  readonly part: number;
  readonly terminal: number;
}

/** A link whose two ends were found, with its own number in the drawing. */
export interface JoinedLink {
  readonly link: DrawnLink;
  readonly number: number;
  readonly from: End;
  readonly to: End;
}

/** Finds the ends of all links. A link to a terminal that is not drawn is left out: a finding says so already. */
export function joinLinks(drawing: Drawing): readonly JoinedLink[] {
  const ends = new Map<string, End>();
  drawing.parts.forEach(({ terminals }, part) => {
    terminals.forEach(({ id }, terminal) => {
      if (!ends.has(id)) ends.set(id, { part, terminal });
    });
  });
  return drawing.links.flatMap((link, number) => {
    const from = ends.get(link.from);
    const to = ends.get(link.to);
    return from && to ? [{ link, number, from, to }] : [];
  });
}
