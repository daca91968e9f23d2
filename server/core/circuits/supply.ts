import type { Part } from '../model/machine.ts';
import { type Machine, partsWithSheets } from '../model/resolve.ts';
import type { Circuit, Sheet } from '../model/sheet.ts';
import type { Link } from '../model/wiring.ts';
import { type Nets, terminalId } from './nets.ts';
import type { CircuitAt } from './signals.ts';

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
  const supplies = circuitsOfKind(machine, 'power-out');
  const at = ({ part, circuit }: CircuitAt, index: number) =>
    reach(terminalId(part.name, circuit.ends[index]?.text ?? ''));
  const feeds: Feed[] = [];
  for (const load of circuitsOfKind(machine, 'power-in')) {
    const plus = terminalId(load.part.name, load.circuit.ends[0]?.text ?? '');
    if (!nets.isWired(plus)) continue;
    for (const supply of supplies) {
      if (supply.part === load.part) continue;
      if (at(supply, 0) === at(load, 0) && at(supply, 1) === at(load, 1)) {
        feeds.push({ supply, load, link: nets.linksAt(plus)[0] });
      }
    }
  }
  return feeds;
}

/** All circuits of one kind in the machine, in its order. */
export function circuitsOfKind(machine: Machine, kind: string): readonly CircuitAt[] {
  const byKind = kinds.get(machine) ?? new Map<string, readonly CircuitAt[]>();
  kinds.set(machine, byKind);
  let found = byKind.get(kind);
  if (!found) {
    found = gatherKind(machine, kind);
    byKind.set(kind, found);
  }
  return found;
}

const kinds = new WeakMap<Machine, Map<string, readonly CircuitAt[]>>();

function gatherKind(machine: Machine, kind: string): readonly CircuitAt[] {
  const found: CircuitAt[] = [];
  for (const part of machine.parts.values()) {
    if (!part.sheet) continue;
    for (const circuit of kindsIn(part.sheet).get(kind) ?? []) found.push({ part, circuit });
  }
  return found;
}

const bySheet = new WeakMap<Sheet, ReadonlyMap<string, readonly Circuit[]>>();

/** The circuits of a sheet by their kind. */
function kindsIn(sheet: Sheet): ReadonlyMap<string, readonly Circuit[]> {
  const known = bySheet.get(sheet);
  if (known) return known;
  const byKind = new Map<string, Circuit[]>();
  for (const circuit of sheet.circuits.values()) {
    const there = byKind.get(circuit.kind);
    if (there) there.push(circuit);
    else byKind.set(circuit.kind, [circuit]);
  }
  bySheet.set(sheet, byKind);
  return byKind;
}

/** Numbers for terminals that are equal when current can flow between them. */
function joinConductors(machine: Machine, nets: Nets): (terminal: string) => number {
  const neighbours = new Map<number, number[]>();
  const connect = (a: number, b: number) => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = neighbours.get(from);
      if (list) list.push(to);
      else neighbours.set(from, [to]);
    }
  };
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      if (!CONDUCTING.has(circuit.kind)) continue;
      const [first, ...others] = netsOf(
        part,
        circuit.ends.map((end) => end.text),
        nets,
      );
      for (const other of others) if (first !== undefined) connect(first, other);
    }
  }
  const groups = new Map<number, number>();
  return (terminal) => {
    const net = nets.netOf(terminal);
    if (!groups.has(net)) spread(net, neighbours, groups);
    return groups.get(net) ?? net;
  };
}

function netsOf(part: Part, terminals: readonly string[], nets: Nets): number[] {
  return terminals.map((terminal) => nets.netOf(terminalId(part.name, terminal)));
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
