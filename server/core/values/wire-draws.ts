import { placeOfEnd, placeOfTerminal } from '../circuits/places.ts';
import { reachFrom, reachFromEnd } from '../circuits/reach-from.ts';
import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind, type Feed, feedsOf } from '../circuits/supply.ts';
import { slotsTo } from '../circuits/ways.ts';
import { threePhaseAt, windingAt } from '../circuits/windings.ts';
import { say } from '../language/say.ts';
import { MAINS, type Machine, mainsTerminals } from '../model/resolve.ts';
import { usualSupplyCurrent } from '../motion/winding.ts';
import { fact } from '../reuse/fact.ts';
import type { FactMap } from '../reuse/fact-map.ts';
import { factOver } from '../reuse/fact-over.ts';
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
export const loadWays = fact('machine', (machine: Machine): readonly LoadWay[] =>
  [...feedWays(machine), ...mainsWays(machine)].filter((way) => way !== undefined),
);

/** The first feed of each load. */
const firstFeeds = fact('machine', (machine: Machine): readonly Feed[] => {
  const seen = new Set<CircuitAt>();
  return feedsOf(machine).filter(({ load }) => !seen.has(load) && seen.add(load));
});

const feedWays = factOver(
  'machine',
  firstFeeds,
  (machine: Machine, { supply, load }): LoadWay | undefined => {
    const paths = [0, 1].flatMap((index) => {
      const reach = reachFromEnd(machine, supply, index);
      const end = placeOfEnd(machine, load, index);
      const path = reach && end !== undefined ? slotsTo(reach, end) : undefined;
      return path ? [path] : [];
    });
    return paths.length < 2 ? undefined : drawnThrough(machine, load, supply, paths);
  },
  keepSameWay,
);

/** The mains feed what their live and neutral terminals reach, through breakers, filters and contactors. */
const mainsWays = factOver(
  'machine',
  (machine: Machine) => ['mains-in', 'three-phase-in'].flatMap((kind) => circuitsOfKind(machine, kind)),
  (machine: Machine, load): LoadWay | undefined => {
    const sources = mainsTerminals(machine)
      .filter((terminal) => terminal !== 'PE')
      .flatMap((terminal) => placeOfTerminal(machine, MAINS, terminal) ?? [])
      .map((place) => reachFrom(machine, place));
    if (sources.length === 0) return undefined;
    const paths = [...load.circuit.ends.keys()].flatMap((index) => {
      const end = placeOfEnd(machine, load, index);
      const source = end === undefined ? undefined : sources.find(({ by }) => by.has(end));
      const path = source && end !== undefined ? slotsTo(source, end) : undefined;
      return path ? [path] : [];
    });
    const isWhole = paths.length === load.circuit.ends.length;
    return isWhole ? drawnThrough(machine, load, undefined, paths) : undefined;
  },
  keepSameWay,
);

/** The way of before where it is the same, also where it was found anew since something was joined elsewhere. */
function keepSameWay(before: LoadWay | undefined, now: LoadWay | undefined): LoadWay | undefined {
  return before && now && isSameWay(before, now) ? before : now;
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

/** The draws of before where as much flows through the same ways. */
export function keepSameDraws(before: readonly Draw[], now: readonly Draw[]): readonly Draw[] {
  const isSame = (draw: Draw, place: number): boolean =>
    isSameDraw(draw, before[place]) && isSameList(draw.path, before[place]?.path ?? []);
  return before.length === now.length && now.every(isSame) ? before : now;
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
  const input = currentOf(load);
  return input && { term: `{${input.name}}`, input, amps: input.value, path };
}

/** What flows from drives and converters to their motors. */
export const motorDraws = fact('machine', (machine: Machine): readonly Draw[] =>
  [...phaseDraws(machine), ...threePhaseDraws(machine)].flat(),
);

const phaseDraws = factOver(
  'machine',
  (machine: Machine) => circuitsOfKind(machine, 'phase-out'),
  (machine: Machine, out) =>
    drawsBetween(machine, out, windingAt, () => {
      const set = setCurrent(machine, out.part);
      return set && effectiveCurrent(set);
    }),
  keepSameDraws,
);

const threePhaseDraws = factOver(
  'machine',
  (machine: Machine) => circuitsOfKind(machine, 'three-phase-out'),
  (machine: Machine, out) =>
    drawsBetween(machine, out, threePhaseAt, (motor) => currentOf(motor) ?? currentOf(out)),
  keepSameDraws,
);

/** The draws from each end of an output to whatever end of a motor it reaches, crossed or not. */
function drawsBetween(
  machine: Machine,
  out: CircuitAt,
  motorAt: FactMap<Machine, number, CircuitAt>,
  flowTo: (motor: CircuitAt) => Input | undefined,
): readonly Draw[] {
  return [...out.circuit.ends.keys()].flatMap((index) => {
    const reach = reachFromEnd(machine, out, index);
    const end = reach?.order.find((place) => motorAt.get(machine, place));
    const motor = end === undefined ? undefined : motorAt.get(machine, end);
    const input = motor && flowTo(motor);
    const path = reach && end !== undefined ? slotsTo(reach, end) : undefined;
    return input && path ? [{ term: `{${input.name}}`, input, amps: input.value, path }] : [];
  });
}

/** What the sheet of a part says that a circuit takes or gives. */
function currentOf({ part, circuit }: CircuitAt): Input | undefined {
  return part.sheet && figureInput(say`current of ${part.name}`, circuit.figures, 'current', part.sheet.file);
}
