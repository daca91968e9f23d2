import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { railsOf } from '../../circuits/solve/solved.ts';
import { say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import type { Data } from '../../problem.ts';
import type { Span } from '../../syntax/node.ts';
import { formatNumber } from '../../units/index.ts';
import { showBriefly } from '../../values/derived.ts';
import { isSupplyPart } from '../../values/supply-load.ts';
import { diagnosed } from '../common/diagnose.ts';
import { restsOnFault } from '../common/held-back.ts';
import { findOverloads } from '../common/overloads.ts';
import { word } from '../common/words.ts';
import type { Found, Rule } from '../rule.ts';
import { outputFights } from '../wiring/output-fights.ts';

/** A usual limit for supplies that run all day (common practice, no source). */
const USUAL = 0.8;

/** The two findings about the load of a supply differ in how much it is, and so in severity. */
export function loadRule(code: string, size: 'over' | 'high', title: string): Rule {
  return {
    code,
    severity: size === 'over' ? 'error' : 'warning',
    title,
    find: (analysis) => findLoads(analysis, size),
    say: (data) => sayLoad(data, size),
  };
}

function sayLoad(data: Data, size: 'over' | 'high'): string {
  const figures = say`${word(data, 'supply')} gives ${word(data, 'rated')}, and what it feeds takes up to ${word(data, 'load')}, ${word(data, 'share')} of that (${word(data, 'sum')})`;
  return size === 'over'
    ? say`${figures}. Its voltage breaks down or it switches off when everything runs. Take a larger one, or divide the load.`
    : say`${figures}. Above 80 % it runs hot and has nothing left for what is added later. Take a larger one, or divide the load.`;
}

/** The figures of what overloads a supply. */
export function overloadingFigures({ machine, values }: MachineAnalysis): ReadonlySet<Span> {
  const figures = new Set<Span>();
  for (const { name } of machine.parts.values()) {
    if (!((values.byAddress.get(`parts.${name}.load-share`)?.si ?? 0) > 1 + 1e-9)) continue;
    for (const { at } of values.byAddress.get(`parts.${name}.load`)?.inputs ?? []) if (at) figures.add(at);
  }
  return figures;
}

/** Supplies; and the outputs of other parts, which their makers dare to load fully. */
function outputsOf(
  analysis: MachineAnalysis,
  size: 'over' | 'high',
): readonly { readonly part: Part; readonly output: string }[] {
  const parts = [...analysis.machine.parts.values()];
  const rails = railsOf(analysis.machine);
  // While something is shorted or gets more than it bears, what flows is not what was meant, and that is told.
  const isMeant =
    rails.conflicts.length === 0 &&
    diagnosed(analysis, 'over-rating').length === 0 &&
    outputFights(analysis).length === 0 &&
    findOverloads(analysis).length === 0;
  return parts.flatMap((part) => {
    if (isSupplyPart(part)) return [{ part, output: part.name }];
    if (size === 'high' || !isMeant) return [];
    const circuits = [...(part.sheet?.circuits.values() ?? [])].filter(({ kind }) => kind === 'power-out');
    return circuits.map(({ name }) => ({ part, output: `${part.name}.${name}` }));
  });
}

function* findLoads(analysis: Analysis, size: 'over' | 'high'): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { part, output } of outputsOf(analysis, size)) {
    const [load, share] = ['load', 'load-share'].map((name) =>
      analysis.values.byAddress.get(`parts.${output}.${name}`),
    );
    if (!load || !share || restsOnFault(analysis, share)) continue;
    // What is rounded at the limit is at the limit, and not above it.
    const found = share.si > 1 + 1e-9 ? 'over' : share.si > USUAL + 1e-9 ? 'high' : 'enough';
    if (found !== size) continue;
    const rated = share.inputs[1];
    yield {
      at: part.key,
      data: {
        supply: output,
        rated: rated?.shown ?? '',
        load: showBriefly(load),
        share: `${formatNumber(share.value, 3)} %`,
        sum: load.working,
      },
      related: rated?.at
        ? [
            {
              ...(rated.file !== analysis.file && rated.file !== undefined && { file: rated.file }),
              at: rated.at,
              note: say`${part.name} gives ${rated.shown}`,
            },
          ]
        : [],
    };
  }
}
