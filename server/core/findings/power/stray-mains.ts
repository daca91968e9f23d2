import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { reachOf, slotsTo, type Ways, wayAt, waysOf } from '../../circuits/ways.ts';
import { MAINS, mainsTerminals } from '../../model/resolve.ts';
import { type TerminalId, terminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import { fact } from '../../reuse/fact.ts';
import { type CircuitEnd, endsOn } from '../common/conductors.ts';
import { mainsLoads } from './mains-loads.ts';

/** A live conductor of the mains that comes to a terminal which is not made for it. */
export interface Stray {
  readonly live: TerminalId;
  readonly end: CircuitEnd;
  /** The last link on the way there. */
  readonly link: Link | undefined;
  /** In volts. */
  readonly volts: number;
}

/** Where the mains come to what is not made for them, through breakers and contacts: the nearest place of each live. */
export const strayMains = fact('analysis', findStray);

function findStray(analysis: MachineAnalysis): Stray[] {
  const { machine } = analysis;
  const mains = machine.fields.mains('mains')?.value;
  // Mains that suit nothing at all are a mistake of their own.
  if (!mains || mainsLoads(analysis).suitsNone) return [];
  const volts = mains.phases === 3 ? mains.voltage.value / Math.sqrt(3) : mains.voltage.value;
  const ways = waysOf(machine);
  return mainsTerminals(machine)
    .filter((terminal) => /^L/.test(terminal))
    .flatMap((terminal) => {
      const live = terminalId(MAINS, terminal);
      const found = nearest(analysis, ways, ways.placeOf.get(live), volts);
      return found ? [{ live, volts, ...found }] : [];
    });
}

function nearest(
  analysis: MachineAnalysis,
  ways: Ways,
  start: number | undefined,
  volts: number,
): Pick<Stray, 'end' | 'link'> | undefined {
  if (start === undefined) return undefined;
  const reach = reachOf(ways, start);
  const byNet = new Map<number, readonly CircuitEnd[]>();
  for (const place of reach.order) {
    const terminal = ways.terminals[place] ?? '';
    const net = analysis.nets.netOf(terminal);
    const wrong = byNet.get(net) ?? endsOn(analysis, net).filter((each) => !bears(each, volts));
    byNet.set(net, wrong);
    const end = wrong.find((each) => each.terminal === terminal);
    if (!end) continue;
    const links = (slotsTo(reach, place) ?? []).flatMap((slot) => wayAt(ways, slot)?.link ?? []);
    return { end, link: links.at(-1) };
  }
  return undefined;
}

/** What the mains may come to; of contacts and coils those whose rating is for it. */
const MAINS_KINDS: ReadonlySet<string> = new Set([
  'mains-in',
  'three-phase-in',
  'fuse',
  'joined',
  'resistor',
  // Live on protective earth trips the breaker, and is not a question of voltage.
  'earth',
  'screen',
]);

/** Mains may be so much above what is stated, as makers state nominal voltages (common practice, no source). */
const SLACK = 0.9;

function bears({ circuit }: Pick<CircuitAt, 'circuit'>, volts: number): boolean {
  if (MAINS_KINDS.has(circuit.kind)) return true;
  if (!['contact', 'changeover', 'coil'].includes(circuit.kind)) return false;
  const rated = circuit.figures.quantity('voltage')?.value.value;
  return rated === undefined || rated >= SLACK * volts;
}
