import { MAINS } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import { type Conductor, type Conductors, findConductors } from './conductors.ts';
import type { Element } from './element.ts';
import { type Elements, makeElements } from './elements-by-part.ts';
import { findSupplies, holdRails, type Rails, type Supply } from './rails.ts';
import type { Wired } from './wired.ts';

/** The whole machine as something that can be solved: nodes, what stands between them, and what holds some of them. */
export interface Board {
  readonly machine: Wired;
  readonly conductors: Conductors;
  /** The same object in all versions of a machine with the same sheets in which every conductor joins what it joined. */
  readonly layout: object;
  readonly supplies: readonly Supply[];
  /** By node: the ends of supplies that are on it, in the order of the machine. */
  readonly supplyEndsOn: ReadonlyMap<number, readonly SupplyEnd[]>;
  readonly rails: Rails;
  /** Undefined at the places of a part that has lost its sheet. */
  readonly elements: readonly (Element | undefined)[];
  /** The same elements, and those of each part. */
  readonly elementsOf: Elements;
  /** The terminals of each element, as places in the list of terminals. */
  readonly endsOf: readonly (readonly number[])[];
  /** By terminal: the node that it is on. */
  readonly nodeOf: Int32Array;
  /** By terminal: the same number for all that conductors join, whatever resistance these have. */
  readonly netOf: Int32Array;
  /** The terminals of a node. */
  readonly terminalsOn: (node: number) => readonly number[];
  /** By terminal: the elements that end there. */
  readonly elementsAt: readonly (readonly number[])[];
  /** Conductors with a resistance, which stand between nodes as elements do. */
  readonly isResistive: (conductor: Conductor) => boolean;
  /** Nodes that the mains reach; they are not in direct current, and what is joined to them is not solved. */
  readonly onMains: ReadonlySet<number>;
}

/** One terminal of a supply. */
export interface SupplyEnd {
  readonly supply: Supply;
  readonly terminal: number;
}

/**
 * Lays the machine out. Wires between rails and what they feed are taken as ideal, so that a rail is one node and each
 * input a small group of its own; what is lost along them is reckoned with the supplies. All other wires keep their
 * resistance where gauge and length are known.
 * @param before the board of an earlier version, of which everything that is still the same is taken over
 */
export function layBoard(machine: Wired, before?: Board): Board {
  const conductors = findConductors(machine, before?.conductors);
  const elementsOf = makeElements(machine, conductors.frame, before?.elementsOf);
  const elements = elementsOf.all;
  const hasSameShape = before !== undefined && before.conductors.frame.shape === conductors.frame.shape;
  const supplies = findSupplies(machine, conductors.frame.endsIn, hasSameShape ? before.supplies : undefined);
  const ends = hasSameShape ? before : placeElements(elements, conductors);
  const nodes =
    hasSameShape && hasSameNodes(conductors, supplies, before) ? before : joinNodes(conductors, supplies);
  const held = nodes === before && supplies === before.supplies ? before : holdNodes(supplies, nodes);
  return {
    machine,
    conductors,
    layout: conductors.at,
    supplies,
    elements,
    elementsOf,
    endsOf: ends.endsOf,
    elementsAt: ends.elementsAt,
    supplyEndsOn: held.supplyEndsOn,
    rails: held.rails,
    nodeOf: nodes.nodeOf,
    netOf: nodes.netOf,
    terminalsOn: nodes.terminalsOn,
    isResistive: nodes.isResistive,
    onMains: nodes.onMains,
  };
}

/** The elements that are there, with their places. */
export const listElements = ({ elements }: Pick<Board, 'elements'>): readonly PlacedElement[] =>
  placedElements(elements);

type PlacedElement = readonly [place: number, element: Element];

const placedElements = keptBy((elements: Board['elements']): readonly PlacedElement[] => {
  const placed: PlacedElement[] = [];
  elements.forEach((element, place) => {
    if (element) placed.push([place, element]);
  });
  return placed;
});

/** Where the elements end. */
function placeElements(
  elements: Board['elements'],
  { placeOf, terminals }: Conductors,
): Pick<Board, 'endsOf' | 'elementsAt'> {
  const endsOf = elements.map((element) => (element?.ends ?? []).map((end) => placeOf.get(end) ?? 0));
  const elementsAt: number[][] = terminals.map(() => []);
  for (const [element, ends] of endsOf.entries()) {
    for (const end of new Set(ends)) elementsAt[end]?.push(element);
  }
  return { endsOf, elementsAt };
}

/** Whether no conductor joins other terminals than before, or has come to have a resistance or lost it. */
function hasSameNodes(conductors: Conductors, supplies: readonly Supply[], before: Board): boolean {
  return (
    conductors.at === before.conductors.at &&
    hasSameEnds(supplies, before.supplies) &&
    conductors.all.every(({ ohms }, place) => {
      const past = before.conductors.all[place]?.ohms;
      return ohms === past || isWire(ohms) === isWire(past);
    })
  );
}

function hasSameEnds(supplies: readonly Supply[], before: readonly Supply[]): boolean {
  return (
    supplies === before ||
    (supplies.length === before.length &&
      supplies.every(
        ({ plus, minus }, place) => plus === before[place]?.plus && minus === before[place].minus,
      ))
  );
}

function isWire(ohms: number | undefined): boolean {
  return ohms !== undefined && ohms > 0;
}

/** Joins terminals into nodes. */
function joinNodes(
  conductors: Conductors,
  supplies: readonly Supply[],
): Pick<Board, 'nodeOf' | 'netOf' | 'terminalsOn' | 'isResistive' | 'onMains'> {
  const netOf = joinTerminals(conductors, supplies, () => true);
  const railNets = new Set(supplies.flatMap(({ plus, minus }) => [netOf[plus], netOf[minus]]));
  const isResistive = ({ a, ohms }: Conductor) => isWire(ohms) && !railNets.has(netOf[a] ?? -1);
  const nodeOf = joinTerminals(conductors, supplies, (conductor) => !isResistive(conductor));
  return {
    nodeOf,
    netOf,
    terminalsOn: chainTerminals(nodeOf),
    isResistive,
    onMains: findMains(conductors, nodeOf),
  };
}

/** Finds what holds the nodes. */
function holdNodes(
  supplies: readonly Supply[],
  { nodeOf }: Pick<Board, 'nodeOf'>,
): Pick<Board, 'supplyEndsOn' | 'rails'> {
  return {
    supplyEndsOn: findSupplyEnds(supplies, nodeOf),
    rails: holdRails(supplies, (terminal) => nodeOf[terminal] ?? 0),
  };
}

/** Lists the terminals of a node when somebody asks: nearly all nodes of a large machine are never asked about. */
function chainTerminals(nodeOf: Int32Array): Board['terminalsOn'] {
  const first = new Int32Array(nodeOf.length).fill(-1);
  const next = new Int32Array(nodeOf.length).fill(-1);
  for (let terminal = nodeOf.length - 1; terminal >= 0; terminal--) {
    const node = nodeOf[terminal] ?? 0;
    next[terminal] = first[node] ?? -1;
    first[node] = terminal;
  }
  return (node) => {
    const terminals: number[] = [];
    for (let each = first[node] ?? -1; each >= 0; each = next[each] ?? -1) terminals.push(each);
    return terminals;
  };
}

/**
 * Numbers for terminals, equal where the chosen conductors join them: the place of one of those joined, the lowest of
 * those that are ends of supplies if there are such, so that a rail keeps its number whatever is joined to it.
 */
function joinTerminals(
  { terminals, all }: Conductors,
  supplies: readonly Supply[],
  joins: (conductor: Conductor) => boolean,
): Int32Array {
  const ends = new Set(supplies.flatMap(({ plus, minus }) => [plus, minus]));
  const rankOf = (place: number): number => (ends.has(place) ? place : place + terminals.length);
  const up = new Int32Array(terminals.length);
  for (let place = 0; place < up.length; place++) up[place] = place;
  const find = (place: number): number => {
    let at = place;
    for (let next = up[at] ?? at; next !== at; next = up[at] ?? at) {
      up[at] = up[next] ?? next; // halves the path
      at = up[at] ?? at;
    }
    return at;
  };
  for (const conductor of all) {
    if (!joins(conductor)) continue;
    const a = find(conductor.a);
    const b = find(conductor.b);
    if (a === b) continue;
    if (rankOf(a) < rankOf(b)) up[b] = a;
    else up[a] = b;
  }
  for (let place = 0; place < up.length; place++) up[place] = find(place);
  return up;
}

function findSupplyEnds(supplies: readonly Supply[], nodeOf: Int32Array): Map<number, SupplyEnd[]> {
  const ends = new Map<number, SupplyEnd[]>();
  for (const supply of supplies) {
    for (const terminal of [supply.plus, supply.minus]) {
      const node = nodeOf[terminal] ?? 0;
      const there = ends.get(node);
      if (there) there.push({ supply, terminal });
      else ends.set(node, [{ supply, terminal }]);
    }
  }
  return ends;
}

/** The terminals of the supply network, other than its protective earth. */
const LIVE = ['L', 'L1', 'L2', 'L3', 'N'].map((terminal) => terminalId(MAINS, terminal));

/** The nodes that they are on. */
function findMains({ placeOf }: Conductors, nodeOf: Int32Array): Set<number> {
  return new Set(LIVE.flatMap((terminal) => nodeOf[placeOf.get(terminal) ?? -1] ?? []));
}
