import type { CircuitAt } from '../circuits/signals.ts';
import type { Feed } from '../circuits/supply.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { usualSupplyCurrent } from '../motion/winding.ts';
import { type Collector, figureInput } from './collect.ts';
import { effectiveCurrent, setCurrent } from './current.ts';
import { type Derived, type Input, inputFrom } from './derived.ts';

/** What a supply's output feeds at most, and its share of what the supply gives. Nothing for supplies that feed nothing. */
export function deriveLoads(machine: Machine, feeds: readonly Feed[], out: Collector): void {
  const bySupply = new Map<string, Feed[]>();
  for (const feed of feeds) {
    if (feed.supply.part.sheet?.partClass !== 'supply') continue;
    const { name } = feed.supply.part;
    bySupply.set(name, [...(bySupply.get(name) ?? []), feed]);
  }
  for (const [name, fed] of bySupply) {
    const load = deriveLoad(machine, name, fed, out);
    const [first, ...others] = fed;
    if (!first || !load) continue;
    if (others.every(({ supply }) => supply.circuit === first.supply.circuit))
      deriveShare(name, first.supply, load, out);
    else out.lack(`parts.${name}.load-share`, 'a supply with one output');
  }
}

function deriveLoad(
  machine: Machine,
  name: string,
  feeds: readonly Feed[],
  out: Collector,
): Derived | undefined {
  const draws = drawsOf(machine, feeds);
  const lacking = draws.find(({ input }) => input === undefined);
  if (lacking) {
    out.lack(`parts.${name}.load`, `the current of ${lacking.part.name}`);
    return undefined;
  }
  const inputs = (isDrive: boolean) =>
    draws.filter((draw) => draw.isDrive === isDrive).flatMap(({ input }) => input ?? []);
  const [drives, others] = [inputs(true), inputs(false)];
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
    source: `the sum of what is fed at most${drives.length > 0 ? '; drives at two thirds of the set phase current, RMS (common practice, no source)' : ''}; coils and sensors are not counted`,
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

/** What each part takes of what its supply gives, in A; empty while one of them is not known. */
export function supplyShares(
  machine: Machine,
  feeds: readonly Feed[],
): { readonly part: string; readonly amps: number }[] {
  const draws = drawsOf(machine, feeds);
  if (draws.some(({ input }) => input === undefined)) return [];
  return draws.map(({ part, isDrive, input }) => ({
    part: part.name,
    amps: isDrive ? usualSupplyCurrent([input?.value ?? 0]) : (input?.value ?? 0),
  }));
}

function currentOf({ part, circuit }: CircuitAt): Input | undefined {
  return part.sheet && figureInput(`current of ${part.name}`, circuit.figures, 'current', part.sheet.file);
}

function deriveShare(name: string, { part, circuit }: CircuitAt, load: Derived, out: Collector): void {
  const rated = part.sheet && figureInput('rated current', circuit.figures, 'current', part.sheet.file);
  if (!rated) {
    out.lack(`parts.${name}.load-share`, `the current that ${name} gives`);
    return;
  }
  const drawn = inputFrom(load, 'load');
  out.add({
    address: `parts.${name}.load-share`,
    unit: '%',
    formula: '{load} / {rated current}',
    inputs: [drawn, rated],
    si: drawn.value / rated.value,
    source: 'definition; 80 % is a usual limit (common practice, no source)',
  });
}
