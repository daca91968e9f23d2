import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind, type Feed } from '../../circuits/supply.ts';
import { say } from '../../language/say.ts';
import type { End } from '../../model/link.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import type { Edit, Fix } from '../../problem.ts';
import { showsText } from '../common/edits.ts';
import { isAlone } from '../common/link-ends.ts';
import { fitsLoad } from '../common/voltage.ts';

/** The end of a link that is this terminal of a circuit. */
export function endAt(link: Link, { part, circuit }: CircuitAt, index: number): End | undefined {
  return [link.to, link.from].find((end) => isAt(end, part.name, circuit.ends[index]?.text));
}

function isAt(end: End, part: string, terminal: string | undefined): boolean {
  return end.part === part && end.terminal === terminal;
}

/** The other supplies of the machine, not those for a controller's own inputs and outputs, that give what the load takes. */
export function fittingSupplies(
  analysis: MachineAnalysis,
  { load, supply }: Pick<Feed, 'load' | 'supply'>,
): CircuitAt[] {
  return circuitsOfKind(analysis.machine, 'power-out').filter(
    (other) =>
      other.part.sheet?.partClass === 'supply' &&
      other.part !== supply.part &&
      other.part !== load.part &&
      fitsLoad(analysis, other, load),
  );
}

/** Moves the load to another supply that fits, where its wires go to the supply straight. */
export function moveToSupply(
  analysis: MachineAnalysis,
  feed: Feed,
  link: Link,
  others: readonly CircuitAt[] = fittingSupplies(analysis, feed),
): Fix[] {
  const { nets } = analysis;
  const minusId = (at: CircuitAt) => terminalId(at.part.name, at.circuit.ends[1]?.text ?? '');
  return others.flatMap((other) => {
    const plus = moveEnd(analysis, link, feed, other, 0);
    const shared = nets.netOf(minusId(other)) === nets.netOf(minusId(feed.load));
    const minusLink = nets.linksAt(minusId(feed.load))[0];
    const minus = shared || !minusLink ? undefined : moveEnd(analysis, minusLink, feed, other, 1);
    if (!plus || (!shared && !minus)) return [];
    const title = say`Feed ${feed.load.part.name} from ${other.part.name}.${other.circuit.ends[0]?.text}`;
    return [{ title, edits: minus ? [plus, minus] : [plus], safe: false }];
  });
}

/** Puts another supply's terminal in the place of this one's, in a link that serves nothing else. */
function moveEnd(
  analysis: MachineAnalysis,
  link: Link,
  feed: Feed,
  other: CircuitAt,
  index: number,
): Edit | undefined {
  const end = endAt(link, feed.supply, index);
  const terminal = other.circuit.ends[index]?.text;
  if (
    !end ||
    terminal === undefined ||
    !isAlone(analysis, link) ||
    !showsText(end.at, `${end.part}.${end.terminal}`)
  )
    return undefined;
  return { at: end.at, text: `${other.part.name}.${terminal}` };
}
