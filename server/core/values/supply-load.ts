import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind, type Feed, feedsOf } from '../circuits/supply.ts';
import { groupBy } from '../group.ts';
import { later, said, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { usualSupplyCurrent } from '../motion/winding.ts';
import { factMap } from '../reuse/fact-map.ts';
import { isSameList } from '../same-list.ts';
import { formatBest } from '../units/index.ts';
import { type Collector, constantInput, figureInput } from './collect.ts';
import { effectiveCurrent, setCurrent } from './current.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { sectionOver } from './piece.ts';
import { takenBySignals } from './wire-solved.ts';

/**
 * What a supply's output feeds at most, and its share of what the supply gives: the parts that it feeds, and the coils,
 * sensors and signals that hang on it, as their circuits were solved. Nothing for supplies that feed nothing.
 */
export const deriveLoads = sectionOver((machine) => [...outlets.all(machine).values()], addLoad);

/** What others hang on: a supply with all of its outputs, or an output of another part. */
interface Outlet {
  readonly name: string;
  readonly outputs: readonly CircuitAt[];
  readonly feeds: readonly Feed[];
}

/** By the first of their outputs; those that controllers and drives have for their own surroundings come before supplies. */
const outlets = factMap<Machine, CircuitAt, Outlet>(
  'machine',
  (machine) => {
    const feedsFrom = groupBy(feedsOf(machine), ({ supply }) => supply.part);
    const [own, supplying]: [CircuitAt[], CircuitAt[]] = [[], []];
    for (const output of circuitsOfKind(machine, 'power-out'))
      (isSupplyPart(output.part) ? supplying : own).push(output);
    const found = new Map<CircuitAt, Outlet>();
    for (const output of own) {
      const { part, circuit } = output;
      const feeds = (feedsFrom.get(part) ?? []).filter(({ supply }) => supply === output);
      found.set(output, { name: `${part.name}.${circuit.name}`, outputs: [output], feeds });
    }
    for (const [part, outputs] of groupBy(supplying, (output) => output.part))
      for (const first of outputs.slice(0, 1))
        found.set(first, { name: part.name, outputs, feeds: feedsFrom.get(part) ?? [] });
    return found;
  },
  (a, b) => a.name === b.name && isSameList(a.outputs, b.outputs) && isSameList(a.feeds, b.feeds),
);

function addLoad(machine: Machine, { name, outputs, feeds }: Outlet, out: Collector): void {
  const signals = signalsOn(machine, outputs);
  if (feeds.length === 0 && !signals) return;
  const [first, ...others] = outputs;
  if (first && isSupplyPart(first.part)) deriveInrush(name, feeds, out);
  const load = deriveLoad(machine, name, feeds, signals, out);
  if (!first || !load) return;
  if (others.length === 0) deriveShare(name, first, load, out);
  else out.lack(`parts.${name}.load-share`, say`a supply with one output`);
}

/** Whether a part is there to feed others; controllers and drives have outputs for their own surroundings alone. */
export function isSupplyPart(part: Part): boolean {
  return part.sheet?.partClass === 'supply';
}

/** What flows for a moment when everything is switched on together, as far as the sheets say it. */
function deriveInrush(name: string, feeds: readonly Feed[], out: Collector): void {
  const inputs = feeds.flatMap(({ load: { part, circuit } }) => {
    const input =
      part.sheet && figureInput(say`inrush of ${part.name}`, circuit.figures, 'inrush', part.sheet.file);
    return input ? [input] : [];
  });
  if (inputs.length === 0) return;
  out.add({
    address: `parts.${name}.inrush`,
    unit: 'A',
    formula: inputs.map((input) => `{${input.name}}`).join(' + '),
    inputs,
    si: inputs.reduce((sum, { value }) => sum + value, 0),
    source: say`datasheets of the loads, all switched on in one moment; loads whose sheets do not say it are left out`,
  });
}

/** What hangs on a supply's outputs beside the parts that they feed; undefined where it is next to nothing. */
function signalsOn(machine: Machine, supplies: readonly CircuitAt[]): Input | undefined {
  const amps = supplies.reduce(
    (sum, { part, circuit }) => sum + (takenBySignals.get(machine, `${part.name}.${circuit.name}`) ?? 0),
    0,
  );
  return amps > NEXT_TO_NOTHING ? constantInput(SIGNALS, amps, showCurrent) : undefined;
}

/** Less than a hundredth of an ampere is nothing to a supply (common practice, no source). */
const NEXT_TO_NOTHING = 0.01;

const SIGNALS = later`coils, sensors and signals`;

function deriveLoad(
  machine: Machine,
  name: string,
  feeds: readonly Feed[],
  signals: Input | undefined,
  out: Collector,
): Derived | undefined {
  const draws = drawsOf(machine, feeds);
  const lacking = draws.find(({ input }) => input === undefined);
  if (lacking) {
    out.lack(`parts.${name}.load`, say`the current of ${lacking.part.name}`);
    return undefined;
  }
  const inputs = (isDrive: boolean) =>
    draws.filter((draw) => draw.isDrive === isDrive).flatMap(({ input }) => input ?? []);
  const drives = inputs(true);
  const others = [...inputs(false), ...(signals ? [signals] : [])];
  const sum = drives.map((input) => `{${input.name}}`).join(' + ');
  const terms = others.map((input) => `{${input.name}}`);
  if (drives.length > 0) terms.unshift(drives.length > 1 ? `2/3 × (${sum})` : `2/3 × ${sum}`);
  return out.add({
    address: `parts.${name}.load`,
    unit: 'A',
    formula: terms.join(' + '),
    inputs: [...drives, ...others],
    si:
      usualSupplyCurrent(drives.map(({ value }) => value)) +
      others.reduce((all, { value }) => all + value, 0),
    source: say`the sum of what is fed at most${drives.length > 0 ? '; drives at two thirds of the set phase current, RMS (common practice, no source)' : ''}${signals ? '; coils, sensors and signals as solved' : ''}`,
  });
}

/** What one part draws from a supply; drives are reckoned by the phase current that they are set to. */
interface Draw {
  readonly part: Part;
  readonly isDrive: boolean;
  /** Undefined where the current is not known. */
  readonly input: Input | undefined;
}

/** What each part that a supply feeds draws at most, in the order of the machine. */
function drawsOf(machine: Machine, feeds: readonly Feed[]): Draw[] {
  return [...new Set(feeds.map(({ load }) => load.part))].flatMap((part): Draw[] => {
    const set = part.sheet?.partClass === 'drive' ? setCurrent(machine, part) : undefined;
    if (set) return [{ part, isDrive: true, input: effectiveCurrent(set) }];
    const loads = feeds.filter(({ load }) => load.part === part);
    return loads.map(({ load }) => ({ part, isDrive: false, input: currentOf(load) }));
  });
}

/** `coils, sensors and signals` where a supply feeds such, and what they take is worth a word; else nothing. */
export function namedSignals(machine: Machine, supply: CircuitAt): string[] {
  return signalsOn(machine, [supply]) ? [said(SIGNALS)] : [];
}

/** What each part takes of what its supply gives, and its coils and signals together, in A; empty while one is not known. */
export function supplyShares(
  machine: Machine,
  supply: CircuitAt,
  feeds: readonly Feed[],
): { readonly part: string; readonly amps: number }[] {
  const draws = drawsOf(machine, feeds);
  if (draws.some(({ input }) => input === undefined)) return [];
  const signals = signalsOn(machine, [supply]);
  return [
    ...draws.map(({ part, isDrive, input }) => ({
      part: part.name,
      amps: isDrive ? usualSupplyCurrent([input?.value ?? 0]) : (input?.value ?? 0),
    })),
    ...(signals ? [{ part: said(SIGNALS), amps: signals.value }] : []),
  ];
}

function currentOf({ part, circuit }: CircuitAt): Input | undefined {
  return part.sheet && figureInput(say`current of ${part.name}`, circuit.figures, 'current', part.sheet.file);
}

function deriveShare(name: string, { part, circuit }: CircuitAt, load: Derived, out: Collector): void {
  const rated = part.sheet && figureInput(later`rated current`, circuit.figures, 'current', part.sheet.file);
  if (!rated) {
    out.lack(`parts.${name}.load-share`, say`the current that ${name} gives`);
    return;
  }
  const drawn = inputFrom(load, later`load`);
  out.add({
    address: `parts.${name}.load-share`,
    unit: '%',
    formula: '{load} / {rated current}',
    inputs: [drawn, rated],
    si: drawn.value / rated.value,
    source: say`definition; 80 % is a usual limit (common practice, no source)`,
  });
}

const showCurrent = (amps: number): string => formatBest(amps, 'current', 3);
