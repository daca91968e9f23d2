import { MAINS } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Conductors } from '../solve/conductors.ts';
import { partIn } from '../solve/whereabouts.ts';

const EARTH = terminalId(MAINS, 'PE');

/**
 * The terminals of the mains, and those of which nobody knows what is behind them, as places by their part: a current may
 * be driven between any two of one part.
 */
export function hiddenSources({ frame, terminals }: Conductors): ReadonlyMap<string, readonly number[]> {
  const hidden = new Map<string, number[]>();
  // The terminals that some circuit names come first, so what follows is known from links alone.
  for (let place = frame.terminals.length; place < terminals.length; place++) {
    const terminal = terminals[place] ?? '';
    if (terminal === EARTH) continue;
    const part = partIn(terminal);
    const there = hidden.get(part);
    if (there) there.push(place);
    else hidden.set(part, [place]);
  }
  return hidden;
}

/** The nodes with a terminal of which nobody knows what is behind it. */
export function unknownNodes(
  hidden: ReadonlyMap<string, readonly number[]>,
  nodeOf: Int32Array,
): ReadonlySet<number> {
  const nodes = new Set<number>();
  for (const [part, terminals] of hidden)
    if (part !== MAINS) for (const terminal of terminals) nodes.add(nodeOf[terminal] ?? -1);
  return nodes;
}
