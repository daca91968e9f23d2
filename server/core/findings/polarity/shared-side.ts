import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Fix } from '../../problem.ts';
import type { Particulars } from '../common/input-finding.ts';
import { swapTerminals } from '../common/link-ends.ts';
import { feedEnd, type OfOneFeed, otherTerminal } from '../common/shared-feed.ts';
import { signalTerminal } from '../common/sights.ts';
import { moveFeed } from './rail-fixes.ts';

/**
 * What a finding says of several inputs that a side which they share keeps off: it stands at the wire that feeds this
 * side; the other pole of the supply is tried as its cure, and each input the other way round. Undefined for an input that
 * stands alone.
 */
export function sharedSide(analysis: MachineAnalysis, group: OfOneFeed): Particulars | undefined {
  const [{ input }, ...more] = group;
  if (more.length === 0) return undefined;
  const others = more.map((each) => each.input);
  const feed = feedEnd(analysis, [input, ...others]);
  return {
    others,
    at: feed?.near.at,
    data: {
      others: others.map(signalTerminal),
      count: group.length,
      common: feed?.near.id ?? otherTerminal(input),
    },
    propose: () => [...(feed ? moveFeed(input, feed) : []), exchangeAll(analysis, group)],
  };
}

/** The two wires of each of several inputs, in one action. */
function exchangeAll(analysis: MachineAnalysis, group: OfOneFeed): Fix | undefined {
  const swaps = group.map(({ input: { at } }) => {
    const [a = '', b = ''] = at.circuit.ends.map((end) => terminalId(at.part.name, end.text));
    return swapTerminals(analysis, a, b);
  });
  const edits = swaps.flatMap((each) => each ?? []);
  return swaps.includes(undefined)
    ? undefined
    : { title: say`Exchange the two wires of each input`, edits, safe: false };
}
