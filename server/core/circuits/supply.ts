import { groupBy } from '../group.ts';
import type { Part } from '../model/machine.ts';
import { type Machine, partsWithSheets } from '../model/resolve.ts';
import type { Circuit } from '../model/sheet.ts';
import { circuitsIn } from '../model/sheet-circuits.ts';
import { terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import { fact, factBy } from '../reuse/fact.ts';
import { type Nets, netsOf } from './nets.ts';
import { type CircuitAt, circuitAt } from './signals.ts';

/** How a load is fed: the supply, and the links that the current takes on its way there. */
export interface Feed {
  readonly supply: CircuitAt;
  readonly load: CircuitAt;
  /** The link that ends at the load's plus terminal, where a message about the feed belongs. */
  readonly link: Link | undefined;
}

/** Circuits that let a supply's current through, at least in one of their states. */
const CONDUCTING: ReadonlySet<string> = new Set(['fuse', 'contact', 'changeover']);

/**
 * Finds for every load the supplies that reach it: plus to plus and minus to minus, through links, fuses and contacts.
 * Contacts count as closed, since a load must bear what reaches it when they are.
 */
export function traceFeeds(machine: Machine, nets: Nets): Feed[] {
  const reach = joinConductors(machine, nets);
  /** Where the two ends of a circuit lead to, as one word. */
  const rails = ({ part, circuit }: CircuitAt) =>
    [0, 1].map((end) => reach(terminalId(part.name, circuit.ends[end]?.text ?? ''))).join(' ');
  const supplies = groupBy(circuitsOfKind(machine, 'power-out'), rails);
  return circuitsOfKind(machine, 'power-in').flatMap((load): Feed[] => {
    const plus = terminalId(load.part.name, load.circuit.ends[0]?.text ?? '');
    if (!nets.isWired(plus)) return [];
    const link = nets.linksAt(plus)[0];
    return (supplies.get(rails(load)) ?? [])
      .filter((supply) => supply.part !== load.part)
      .map((supply) => ({ supply, load, link }));
  });
}

/** All circuits of one kind in the machine, in its order. */
export const circuitsOfKind = factBy('machine', (machine: Machine, kind: string): readonly CircuitAt[] => {
  const found: CircuitAt[] = [];
  for (const part of machine.parts.values()) {
    if (!part.sheet) continue;
    for (const circuit of circuitsIn(part.sheet, kind)) found.push(circuitAt(part, circuit));
  }
  return found;
});

/** How every load of a machine is fed. A feed is the same object while its supply, its load and its link are. */
export const feedsOf = fact('machine', (machine: Machine, before: readonly Feed[] = []): readonly Feed[] => {
  const known = groupBy(before, ({ load }) => load);
  return traceFeeds(machine, netsOf(machine)).map(
    (feed) =>
      known.get(feed.load)?.find((past) => past.supply === feed.supply && past.link === feed.link) ?? feed,
  );
});

/** Numbers for terminals that are equal when current can flow between them. */
function joinConductors(machine: Machine, nets: Nets): (terminal: string) => number {
  const neighbours = new Map<number, number[]>();
  const lead = (from: number, to: number) => {
    const list = neighbours.get(from);
    if (list) list.push(to);
    else neighbours.set(from, [to]);
  };
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      if (!CONDUCTING.has(circuit.kind)) continue;
      const first = netOfEnd(part, circuit, 0, nets);
      for (let end = 1; end < circuit.ends.length; end++) {
        const other = netOfEnd(part, circuit, end, nets);
        lead(first, other);
        lead(other, first);
      }
    }
  }
  const groups = new Map<number, number>();
  return (terminal) => {
    const net = nets.netOf(terminal);
    if (!groups.has(net)) spread(net, neighbours, groups);
    return groups.get(net) ?? net;
  };
}

function netOfEnd({ name }: Part, { ends }: Circuit, end: number, nets: Nets): number {
  return nets.netOf(terminalId(name, ends[end]?.text ?? ''));
}

function spread(
  start: number,
  neighbours: ReadonlyMap<number, readonly number[]>,
  groups: Map<number, number>,
): void {
  const open = [start];
  for (let net = open.pop(); net !== undefined; net = open.pop()) {
    if (groups.has(net)) continue;
    groups.set(net, start);
    open.push(...(neighbours.get(net) ?? []));
  }
}
