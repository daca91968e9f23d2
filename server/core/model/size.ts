import type { Problem } from '../problem.ts';
import { type Node, pairOf } from '../syntax/node.ts';
import type { MachineText } from './machine.ts';

/**
 * How many parts and links together are computed. Machines that people build have some hundred; one of 10,000 lines has
 * about 6,500. Above that an edit would take longer than anybody waits.
 */
const MOST_THINGS = 10_000;

/** Says of a machine that it is too large to be computed, at its longer list; undefined for one that is not. */
export function checkSize(root: Node | undefined, { parts, links }: MachineText): Problem | undefined {
  if (parts.size + links.length <= MOST_THINGS) return undefined;
  const longer = pairOf(root, parts.size > links.length ? 'parts' : 'wiring');
  const data = { what: 'machine', parts: parts.size, links: links.length, most: MOST_THINGS };
  return longer && { code: 'shape/too-large', at: longer.key, data };
}
