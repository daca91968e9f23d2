import type { CircuitAt } from '../circuits/signals.ts';
import type { Feed } from '../circuits/supply.ts';
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
  const drives: Input[] = [];
  const others: Input[] = [];
  for (const part of new Set(feeds.map(({ load }) => load.part))) {
    const loads = feeds.filter(({ load }) => load.part === part).map(({ load }) => load);
    const set = part.sheet?.partClass === 'drive' ? setCurrent(machine, part) : undefined;
    const inputs = set ? [effectiveCurrent(set)] : loads.map(currentOf);
    const known = inputs.filter((input) => input !== undefined);
    if (known.length < inputs.length) {
      out.lack(`parts.${name}.load`, `the current of ${part.name}`);
      return undefined;
    }
    (set ? drives : others).push(...known);
  }
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
