import type { Drawing, DrawnLink } from './drawing.ts';
import { type JoinedLink, joinLinks } from './ends.ts';
import { groupIntoNets } from './nets.ts';

/** Links that are looked at together, in the order of the text. */
export type Bundle = readonly DrawnLink[];

/** Takes a drawing apart into bundles, in the order of the text. */
export type Bundling = (drawing: Drawing) => readonly Bundle[];

/** From the coarsest to the finest. */
export const BUNDLINGS: readonly Bundling[] = [bundleByWays, bundleByPairs, takeSingly];

/** A part that is wired to more others than these serves many, as a bar or a controller does. */
const FEW = 3;

/**
 * What hangs together without the parts that serve many: a switch with its feed and its signal, a drive with its motor.
 * Earth goes everywhere and holds nothing together.
 */
function bundleByWays(drawing: Drawing): readonly Bundle[] {
  const links = joinLinks(drawing);
  const others = new Map<number, Set<number>>();
  for (const { link, from, to } of links) {
    if (link.kind === 'earth' || from.part === to.part) continue;
    others.set(from.part, (others.get(from.part) ?? new Set()).add(to.part));
    others.set(to.part, (others.get(to.part) ?? new Set()).add(from.part));
  }
  const isOnWay = (part: number): boolean => (others.get(part)?.size ?? 0) <= FEW;
  return bundle(links, (joined) => {
    const ends = [joined.from.part, joined.to.part].filter(isOnWay).map(String);
    return joined.link.kind === 'earth' || ends.length === 0 ? [pairOf(joined)] : ends;
  });
}

/** The links between the same two parts. */
function bundleByPairs(drawing: Drawing): readonly Bundle[] {
  return bundle(joinLinks(drawing), (joined) => [pairOf(joined)]);
}

function takeSingly({ links }: Drawing): readonly Bundle[] {
  return links.map((link) => [link]);
}

const pairOf = ({ from, to }: JoinedLink): string => [from.part, to.part].sort((a, b) => a - b).join(' ');

/** Bundles links that share one of the keys that they are given, directly or through others. */
function bundle(
  links: readonly JoinedLink[],
  keysOf: (joined: JoinedLink) => readonly string[],
): readonly Bundle[] {
  const keyed = links.map((joined) => {
    const [from = '', to = from] = keysOf(joined);
    return { joined, link: { from, to } };
  });
  return groupIntoNets(keyed).map((net) => net.map(({ joined }) => joined.link));
}
