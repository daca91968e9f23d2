import type { MachineAnalysis } from '../../analysis.ts';
import { placeOfEnd } from '../../circuits/places.ts';
import { reachFrom } from '../../circuits/reach-from.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { actorsIn } from '../../circuits/solve/actors.ts';
import { findClashes } from '../../circuits/solve/loads.ts';
import type { Supply } from '../../circuits/solve/rails.ts';
import { circuitsOf } from '../../circuits/solve/solved.ts';
import { slotsTo, wayAt, waysOf } from '../../circuits/ways.ts';
import { numberOf } from '../../model/link-number.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import { fact, keepIf } from '../../reuse/fact.ts';
import { isSameList } from '../../same-list.ts';
import { isAnyBlockBroken } from '../common/held-back.ts';
import { presentAt } from '../common/sights.ts';
import { outputFights } from './output-fights.ts';

/** A supply that the wiring joins to something which it cannot hold at its voltage. */
export interface RailConflict {
  readonly kind: 'shorted' | 'joined';
  readonly supply: CircuitAt;
  /** In volts. */
  readonly volts: number;
  /** For supplies that are joined: the other one. */
  readonly other: { readonly at: CircuitAt; readonly volts: number } | undefined;
  /** The way from its plus to its minus, or to the plus of the other: terminals, and the links between them. */
  readonly path: readonly string[];
  readonly links: readonly Link[];
}

/** Supplies that are shorted, and supplies of different voltages whose plus terminals are joined. */
export const railConflicts = fact('analysis', (analysis: MachineAnalysis): readonly RailConflict[] => {
  return isAnyBlockBroken(analysis) ? [] : [...findShorted(analysis), ...findJoined(analysis)];
});

/** The link at which a conflict is told: the last one of the way, since the wiring grows downwards. */
export function culprit(analysis: MachineAnalysis, { links }: RailConflict): Link | undefined {
  return lastFirst(analysis, links)[0];
}

/** Links by their places in the text, the last of them first. */
export function lastFirst({ machine }: MachineAnalysis, links: readonly Link[]): readonly Link[] {
  return links.toSorted((a, b) => numberOf(machine, b) - numberOf(machine, a));
}

/** The parts of supplies in conflict: what they give is not what their sheets say. */
export function suppliesInConflict(analysis: MachineAnalysis): ReadonlySet<string> {
  return new Set(
    railConflicts(analysis).flatMap(({ supply, other }) => [
      supply.part.name,
      ...(other ? [other.at.part.name] : []),
    ]),
  );
}

function findShorted(analysis: MachineAnalysis): RailConflict[] {
  const { board } = circuitsOf(analysis.machine).solved;
  return board.supplies.flatMap(({ at, plus, minus, volts }): RailConflict[] => {
    if (board.nodeOf[plus] !== board.nodeOf[minus]) return [];
    const supply = presentAt(analysis, at);
    return [
      { kind: 'shorted', supply, volts, other: undefined, ...wayBetween(analysis, supply, 0, supply, 1) },
    ];
  });
}

/** A switch that joins the two sides of a supply, or two supplies, when it is operated, or as long as it is not. */
export interface SwitchedShort {
  readonly part: string;
  readonly terminals: readonly string[];
  readonly isOperated: boolean;
}

/**
 * Contacts and outputs that short a supply in one of their states, as solved. Outputs against each other are told as
 * such, and a supply that is shorted anyhow has a finding of its own.
 */
export const switchedShorts = fact('analysis', findSwitchedShorts, keepIf(isSameShorts));

function findSwitchedShorts(analysis: MachineAnalysis): readonly SwitchedShort[] {
  if (isAnyBlockBroken(analysis) || railConflicts(analysis).length > 0) return [];
  const { solved } = circuitsOf(analysis.machine);
  const fighting = new Set(outputFights(analysis).map(({ group }) => group));
  const found = new Map<string, SwitchedShort>();
  for (const { group, operated } of findClashes(solved)) {
    if (fighting.has(group) || operated.length > 1) continue;
    const actor = operated[0] ?? actorsIn(solved.board, group)[0];
    const [first] = actor?.elements ?? [];
    const terminals = first === undefined ? undefined : solved.board.elements[first]?.ends;
    // What is shorted at rest stays so in other states; it is told once.
    if (actor && terminals && !found.has(group.name))
      found.set(group.name, { part: actor.part, terminals, isOperated: operated.length > 0 });
  }
  return [...found.values()];
}

function isSameShorts(a: readonly SwitchedShort[], b: readonly SwitchedShort[]): boolean {
  return (
    a.length === b.length &&
    a.every(({ part, terminals, isOperated }, place) => {
      const other = b[place];
      return (
        part === other?.part && isOperated === other.isOperated && isSameList(terminals, other.terminals)
      );
    })
  );
}

/** Voltages closer than this are the same, as far as a trim screw can tell. */
const TRIM = 0.05;

function findJoined(analysis: MachineAnalysis): RailConflict[] {
  const { board } = circuitsOf(analysis.machine).solved;
  const first = new Map<number, Supply>();
  const found: RailConflict[] = [];
  for (const supply of board.supplies) {
    const node = board.nodeOf[supply.plus] ?? -1;
    const other = first.get(node);
    if (!other) first.set(node, supply);
    if (!other || Math.abs(other.volts - supply.volts) <= TRIM) continue;
    if ([supply, other].some(({ plus, minus }) => board.nodeOf[plus] === board.nodeOf[minus])) continue;
    const [at, to] = [presentAt(analysis, supply.at), presentAt(analysis, other.at)];
    found.push({
      kind: 'joined',
      supply: at,
      volts: supply.volts,
      other: { at: to, volts: other.volts },
      ...wayBetween(analysis, at, 0, to, 0),
    });
  }
  return found;
}

/** The shortest way from an end of one supply to an end of another, through all that conducts in every state. */
function wayBetween(
  { machine }: MachineAnalysis,
  from: CircuitAt,
  start: number,
  to: CircuitAt,
  end: number,
): { path: string[]; links: Link[] } {
  const ways = waysOf(machine);
  const [a, b] = [placeOfEnd(machine, from, start), placeOfEnd(machine, to, end)];
  const slots = a === undefined || b === undefined ? [] : (slotsTo(reachFrom(machine, a, false), b) ?? []);
  const steps = slots.flatMap((slot) => wayAt(ways, slot) ?? []);
  const path = [terminalId(from.part.name, from.circuit.ends[start]?.text ?? '')];
  let at = a;
  for (const way of steps) {
    at = way.a === at ? way.b : way.a;
    path.push(ways.terminals[at] ?? '');
  }
  return { path, links: steps.flatMap(({ link }) => link ?? []) };
}
