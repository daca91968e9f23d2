import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind, type Feed, feedsOf } from '../circuits/supply.ts';
import { placeOfEnd, reachOf, slotsTo, type Ways, wayNetOf } from '../circuits/ways.ts';
import { say } from '../language/say.ts';
import { MAINS, type Machine, mainsTerminals } from '../model/resolve.ts';
import { usualSupplyCurrent } from '../motion/winding.ts';
import { fact } from '../reuse/fact.ts';
import { isSameList } from '../same-list.ts';
import type { Node } from '../syntax/node.ts';
import { figureInput } from './collect.ts';
import { effectiveCurrent, setCurrent } from './current.ts';
import { type Input, isSameInput } from './derived.ts';

/** A current at most, with the term that stands for it in a formula: `{x}`, or a share of it. */
export interface Draw {
  readonly term: string;
  readonly input: Input;
  readonly amps: number;
  /** The slots of the ways that it flows through, there and back. */
  readonly path: readonly object[];
}

/** How a load is fed: what it draws at most, and the ways from its source and back. */
export interface LoadWay {
  readonly load: CircuitAt;
  /** The supply; undefined for the mains. */
  readonly supply: CircuitAt | undefined;
  /** The slots of these ways. */
  readonly path: readonly object[];
  /** Undefined where no sheet says what it draws. */
  readonly draw: Draw | undefined;
}

/** What each load draws from its supply or from the mains, and through which ways. */
export const loadWays = fact(
  'machine',
  (machine: Machine): readonly LoadWay[] => {
    const ways = wayNetOf(machine);
    return [...feedWays(machine, ways, feedsOf(machine)), ...mainsWays(machine, ways)];
  },
  keepSameWays,
);

/** The ways of before in the place of those that are the same, also where something was joined elsewhere. */
function keepSameWays(before: readonly LoadWay[], now: readonly LoadWay[]): readonly LoadWay[] {
  const known = new Map(before.map((way) => [nameOf(way.load), way]));
  const settled = now.map((way) => {
    const past = known.get(nameOf(way.load));
    return past && isSameWay(past, way) ? past : way;
  });
  return isSameList(before, settled) ? before : settled;
}

function isSameWay(a: LoadWay, b: LoadWay): boolean {
  return (
    a.load === b.load &&
    a.supply === b.supply &&
    isSameList(a.path, b.path) &&
    (a.draw === undefined ? b.draw === undefined : isSameDraw(a.draw, b.draw))
  );
}

/** Whether as much flows for the same reason; which ways it takes elsewhere is nothing to a wire. */
export function isSameDraw(a: Draw, b: Draw | undefined): boolean {
  return (
    a === b || (b !== undefined && a.term === b.term && a.amps === b.amps && isSameInput(a.input, b.input))
  );
}

/** Two parts of one sheet share its circuits, so the part counts as well. */
const nameOf = ({ part, circuit }: CircuitAt): string => `${part.name}.${circuit.name}`;

function feedWays(machine: Machine, ways: Ways, feeds: readonly Feed[]): LoadWay[] {
  const seen = new Set<string>();
  return feeds.flatMap(({ supply, load }) => {
    const key = nameOf(load);
    if (seen.has(key)) return [];
    seen.add(key);
    const there = pathBetween(ways, placeOfEnd(ways, supply, 0), placeOfEnd(ways, load, 0));
    const back = pathBetween(ways, placeOfEnd(ways, supply, 1), placeOfEnd(ways, load, 1));
    if (!there || !back) return [];
    return [drawnThrough(machine, load, supply, [there, back])];
  });
}

/** The mains feed what their live and neutral terminals reach, through breakers, filters and contactors. */
function mainsWays(machine: Machine, ways: Ways): LoadWay[] {
  const sources = mainsTerminals(machine)
    .filter((terminal) => terminal !== 'PE')
    .flatMap((terminal) => ways.placeOf.get(`${MAINS}.${terminal}`) ?? [])
    .map((place) => reachOf(ways, place));
  if (sources.length === 0) return [];
  return ['mains-in', 'three-phase-in'].flatMap((kind) =>
    circuitsOfKind(machine, kind).flatMap((load) => {
      const paths = load.circuit.ends.map((_, index) => {
        const end = placeOfEnd(ways, load, index);
        const source = end === undefined ? undefined : sources.find(({ by }) => by.has(end));
        return source && end !== undefined ? slotsTo(ways, source, end) : undefined;
      });
      const whole = paths.flatMap((path) => (path ? [path] : []));
      if (whole.length < paths.length) return [];
      return [drawnThrough(machine, load, undefined, whole)];
    }),
  );
}

/** Where results are kept while nothing is joined otherwise, by what they are called. */
type ByLayout<T> = WeakMap<Ways['at'], Map<string, T>>;

/** What a load draws through its paths. */
function drawnThrough(
  machine: Machine,
  load: CircuitAt,
  supply: CircuitAt | undefined,
  paths: readonly (readonly object[])[],
): LoadWay {
  const path = paths.flat();
  return { load, supply, path, draw: drawOf(machine, load, path) };
}

function storeOf<T>(stores: ByLayout<T>, { at }: Ways): Map<string, T> {
  const store = stores.get(at) ?? new Map<string, T>();
  stores.set(at, store);
  return store;
}

/** Drives take two thirds of the current that they are set to (common practice); other loads what their sheets state. */
function drawOf(machine: Machine, load: CircuitAt, path: readonly object[]): Draw | undefined {
  const { part, circuit } = load;
  const set =
    part.sheet?.partClass === 'drive' && circuit.kind === 'power-in' ? setCurrent(machine, part) : undefined;
  if (set) {
    const input = effectiveCurrent(set);
    return { term: `2/3 × {${input.name}}`, input, amps: usualSupplyCurrent([input.value]), path };
  }
  const input =
    part.sheet && figureInput(say`current of ${part.name}`, circuit.figures, 'current', part.sheet.file);
  return input && { term: `{${input.name}}`, input, amps: input.value, path };
}

/** What flows from drives and converters to their motors. */
export const motorDraws = fact('machine', (machine: Machine): readonly Draw[] => {
  const ways = wayNetOf(machine);
  const windings = once(() => ownersOf(ways, circuitsOfKind(machine, 'winding')));
  const threePhase = once(() => ownersOf(ways, circuitsOfKind(machine, 'three-phase-in')));
  const phases = circuitsOfKind(machine, 'phase-out').flatMap((out) => {
    const set = setCurrent(machine, out.part);
    const input = set && effectiveCurrent(set);
    return input ? drawsBetween(ways, out, windings, () => input) : [];
  });
  const three = circuitsOfKind(machine, 'three-phase-out').flatMap((out) =>
    drawsBetween(
      ways,
      out,
      threePhase,
      ({ part, circuit }) =>
        (part.sheet &&
          figureInput(say`current of ${part.name}`, circuit.figures, 'current', part.sheet.file)) ??
        (out.part.sheet &&
          figureInput(say`current of ${out.part.name}`, out.circuit.figures, 'current', out.part.sheet.file)),
    ),
  );
  return [...phases, ...three];
});

/** Puts a piece of work off until somebody wants what comes of it, and does it once. */
function once<T>(work: () => T): () => T {
  let done: { readonly result: T } | undefined;
  return () => {
    done ??= { result: work() };
    return done.result;
  };
}

/** Which motor stands at a place of the ways; the first where two do. */
function ownersOf(ways: Ways, motors: readonly CircuitAt[]): ReadonlyMap<number, CircuitAt> {
  const owners = new Map<number, CircuitAt>();
  for (const motor of motors) {
    for (const index of motor.circuit.ends.keys()) {
      const place = placeOfEnd(ways, motor, index);
      if (place !== undefined && !owners.has(place)) owners.set(place, motor);
    }
  }
  return owners;
}

const keptOutputs: ByLayout<{ readonly node: Node | undefined; readonly draws: readonly Draw[] }> =
  new WeakMap();

/** The draws from each end of an output to whatever end of a motor it reaches, crossed or not. */
function drawsBetween(
  ways: Ways,
  out: CircuitAt,
  ownersOfEnds: () => ReadonlyMap<number, CircuitAt>,
  currentOf: (motor: CircuitAt) => Input | undefined,
): readonly Draw[] {
  const store = storeOf(keptOutputs, ways);
  const key = nameOf(out);
  const known = store.get(key);
  // What else it depends on, the sheets and what is joined to what, is the same while the store is.
  if (known && known.node === out.part.node) return known.draws;
  const owners = ownersOfEnds();
  const draws = [...out.circuit.ends.keys()].flatMap((index) => {
    const start = placeOfEnd(ways, out, index);
    const reach = start === undefined ? undefined : reachOf(ways, start);
    const end = reach?.order.find((place) => owners.has(place));
    const motor = end === undefined ? undefined : owners.get(end);
    const input = motor && currentOf(motor);
    const path = reach && end !== undefined ? slotsTo(ways, reach, end) : undefined;
    return input && path ? [{ term: `{${input.name}}`, input, amps: input.value, path }] : [];
  });
  store.set(key, { node: out.part.node, draws });
  return draws;
}

function pathBetween(
  ways: Ways,
  from: number | undefined,
  to: number | undefined,
): readonly object[] | undefined {
  return from === undefined || to === undefined ? undefined : slotsTo(ways, reachOf(ways, from), to);
}
