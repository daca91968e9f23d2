import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { railsOf } from '../../circuits/solve/solved.ts';
import { say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import { partsOf } from '../../model/resolve.ts';
import type { Data } from '../../problem.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import type { Span } from '../../syntax/node.ts';
import { formatNumber } from '../../units/index.ts';
import { type Derived, showBriefly } from '../../values/derived.ts';
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
export const overloadingFigures = fact(
  'analysis',
  (analysis: MachineAnalysis): ReadonlySet<Span> => new Set(overloadingAt(analysis).flat()),
);

const overloadingAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  ({ values }: MachineAnalysis, { name }): readonly Span[] => {
    if (!((values.byAddress.get(`parts.${name}.load-share`)?.si ?? 0) > 1 + 1e-9)) return [];
    return (values.byAddress.get(`parts.${name}.load`)?.inputs ?? []).flatMap(({ at }) => at ?? []);
  },
);

/** What is fed with too much, or with a lot. */
interface Loaded {
  readonly part: Part;
  /** Whether it is a supply, or the output of another part, which its maker dares to load fully. */
  readonly isSupply: boolean;
  readonly size: 'over' | 'high';
  readonly output: string;
  readonly load: Derived;
  readonly share: Derived;
}

/** At the places of the parts. */
const loadedAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis: MachineAnalysis, part): readonly Loaded[] => {
    const isSupply = isSupplyPart(part);
    const circuits = [...(part.sheet?.circuits.values() ?? [])].filter(({ kind }) => kind === 'power-out');
    const outputs = isSupply ? [part.name] : circuits.map(({ name }) => `${part.name}.${name}`);
    return outputs.flatMap((output) => {
      const [load, share] = ['load', 'load-share'].map((name) =>
        analysis.values.byAddress.get(`parts.${output}.${name}`),
      );
      if (!load || !share || restsOnFault(analysis, share)) return [];
      // What is rounded at the limit is at the limit, and not above it.
      const size = share.si > 1 + 1e-9 ? 'over' : share.si > USUAL + 1e-9 ? 'high' : undefined;
      return size ? [{ part, isSupply, size, output, load, share }] : [];
    });
  },
);

/** While something is shorted or gets more than it bears, what flows is not what was meant, and that is told. */
function isMeant(analysis: MachineAnalysis): boolean {
  return (
    railsOf(analysis.machine).conflicts.length === 0 &&
    diagnosed(analysis, 'over-rating').length === 0 &&
    outputFights(analysis).length === 0 &&
    findOverloads(analysis).length === 0
  );
}

function* findLoads(analysis: Analysis, wanted: 'over' | 'high'): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const loaded = loadedAt(analysis).flat();
  for (const { part, isSupply, size, output, load, share } of loaded) {
    if (size !== wanted || (!isSupply && (size === 'high' || !isMeant(analysis)))) continue;
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
