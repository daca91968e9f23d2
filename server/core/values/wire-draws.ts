import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind, type Feed, feedsOf } from '../circuits/supply.ts';
import { placeOfEnd, reachOf, slotsTo, type Ways, wayNetOf } from '../circuits/ways.ts';
import { say } from '../language/say.ts';
import { MAINS, type Machine, mainsTerminals } from '../model/resolve.ts';
import type { Circuit } from '../model/sheet.ts';
import { usualSupplyCurrent } from '../motion/winding.ts';
import { fact } from '../reuse/fact.ts';
import { isSameList } from '../same-list.ts';
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
        return source && end !== undefined ? slotsTo(source, end) : undefined;
      });
      const whole = paths.flatMap((path) => (path ? [path] : []));
      if (whole.length < paths.length) return [];
      return [drawnThrough(machine, load, undefined, whole)];
    }),
  );
}

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
  const windings = ownersOf(ways, circuitsOfKind(machine, 'winding'));
  const threePhase = ownersOf(ways, circuitsOfKind(machine, 'three-phase-in'));
  const phases = circuitsOfKind(machine, 'phase-out').flatMap((out) => {
    const current = () => {
      const set = setCurrent(machine, out.part);
      return set && effectiveCurrent(set);
    };
    return drawsBetween(ways, out, windings, current);
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

/** Draws, and what they rest on. */
interface KeptDraws {
  readonly read: readonly unknown[];
  readonly draws: readonly Draw[];
}

/** What was drawn from the outputs of a part. Its settings stand in its text; what else the currents are made of is in the sheets. */
const keptOutputs = new WeakMap<object, WeakMap<Circuit, KeptDraws>>();

/** The draws from each end of an output to whatever end of a motor it reaches, crossed or not. */
function drawsBetween(
  ways: Ways,
  out: CircuitAt,
  owners: ReadonlyMap<number, CircuitAt>,
  currentOf: (motor: CircuitAt) => Input | undefined,
): readonly Draw[] {
  const driven = [...out.circuit.ends.keys()].flatMap((index) => {
    const start = placeOfEnd(ways, out, index);
    const reach = start === undefined ? undefined : reachOf(ways, start);
    const end = reach?.order.find((place) => owners.has(place));
    const motor = end === undefined ? undefined : owners.get(end);
    return reach && end !== undefined && motor ? [{ reach, end, motor }] : [];
  });
  const { node = out.part, name } = out.part;
  const store = keptOutputs.get(node) ?? new WeakMap<Circuit, KeptDraws>();
  keptOutputs.set(node, store);
  const read = [
    name,
    ...driven.flatMap(({ reach, end, motor }) => [reach, end, motor.part.name, motor.circuit]),
  ];
  const known = store.get(out.circuit);
  if (known && isSameList(known.read, read)) return known.draws;
  const draws = driven.flatMap(({ reach, end, motor }) => {
    const input = currentOf(motor);
    const path = slotsTo(reach, end);
    return input && path ? [{ term: `{${input.name}}`, input, amps: input.value, path }] : [];
  });
  store.set(out.circuit, { read, draws });
  return draws;
}

function pathBetween(
  ways: Ways,
  from: number | undefined,
  to: number | undefined,
): readonly object[] | undefined {
  return from === undefined || to === undefined ? undefined : slotsTo(reachOf(ways, from), to);
}
