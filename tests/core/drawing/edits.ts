import type { Drawing, DrawnLink } from '../../../server/core/summary/drawing/drawing.ts';
import { type Random, randomFrom } from '../../support/random.ts';

/** Without its n-th link. */
export const withoutLink = (drawing: Drawing, n: number): Drawing => ({
  ...drawing,
  links: drawing.links.filter((_, number) => number !== n),
});

/** Without its n-th part and all that is wired to it. */
export function withoutPart(drawing: Drawing, n: number): Drawing {
  const own = new Set(drawing.parts[n]?.terminals.map(({ id }) => id));
  return {
    ...drawing,
    parts: drawing.parts.filter((_, number) => number !== n),
    links: drawing.links.filter(({ from, to }) => !own.has(from) && !own.has(to)),
  };
}

/** With one more link between two of its terminals. */
function withLink(drawing: Drawing, random: Random): Drawing {
  const terminals = drawing.parts.flatMap((part) => part.terminals.map(({ id }) => id));
  const link: DrawnLink = {
    id: `link:${drawing.links.length + 1}`,
    from: random.oneOf(terminals),
    to: random.oneOf(terminals),
    kind: 'signal',
    label: 'N1',
  };
  return { ...drawing, links: [...drawing.links, link] };
}

/** Changed in one place: a link or a part less, or a link more. */
export function editedOnce(drawing: Drawing, random: Random): Drawing {
  switch (random.below(3)) {
    case 0:
      return withoutLink(drawing, random.below(drawing.links.length));
    case 1:
      return withoutPart(drawing, random.below(drawing.parts.length));
    default:
      return withLink(drawing, random);
  }
}

/** With a third of its links to other terminals than before, and all with labels, colours and cables of some kind. */
export function shuffled(drawing: Drawing, seed: number): Drawing {
  const random = randomFrom(seed);
  const terminals = drawing.parts.flatMap((part) => part.terminals.map(({ id }) => id));
  const links = drawing.links.map((link, number): DrawnLink => {
    const label = random.oneOf([
      '',
      `W${number}`,
      `${number}`,
      `sensor chain ${number}`,
      'Rückmeldung Not-Halt',
    ]);
    const cable = random.oneOf(['', '', `K${random.below(20)}`, 'drag chain']);
    return {
      ...link,
      ...(random.below(3) === 0 && { to: random.oneOf(terminals) }),
      ...(label !== '' && { label }),
      ...(cable !== '' && { cable }),
      colour: random.oneOf(['BK', 'GNYE', 'WHBU', 'RDBU']),
      kind: random.oneOf(['signal', 'power', 'motor', 'earth', link.kind]),
    };
  });
  return { ...drawing, links };
}
