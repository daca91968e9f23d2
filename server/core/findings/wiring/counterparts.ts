import type { MachineAnalysis } from '../../analysis.ts';
import { type CircuitAt, circuitAt } from '../../circuits/signals.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import type { Sheet } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { keptBy } from '../../reuse/kept-by.ts';

/** What gives a signal. */
const GIVING: ReadonlySet<string> = new Set([
  'sink-out',
  'source-out',
  'push-pull-out',
  'line-out',
  'analog-out',
  'contact',
  'changeover',
  'sensor',
  'two-wire-sensor',
]);

/** What takes one. */
const TAKING: ReadonlySet<string> = new Set([
  'pulled-up-in',
  'pulled-down-in',
  'opto-in',
  'line-in',
  'analog-in',
]);

interface Purposes {
  readonly giving: ReadonlyMap<string, readonly CircuitAt[]>;
  readonly taking: ReadonlyMap<string, readonly CircuitAt[]>;
}

/** The circuits that give and take signals, by what they do. */
export const purposesIn = fact('analysis', gather);

function gather({ machine }: MachineAnalysis): Purposes {
  const [giving, taking] = [new Map<string, CircuitAt[]>(), new Map<string, CircuitAt[]>()];
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const { circuit, does, gives } of purposesOf(sheet)) {
      const to = gives ? giving : taking;
      const there = to.get(does);
      if (there) there.push(circuitAt(part, circuit));
      else to.set(does, [circuitAt(part, circuit)]);
    }
  }
  return { giving, taking };
}

/** The circuits of a sheet that give or take a signal. */
const purposesOf = keptBy(({ circuits }: Sheet) =>
  [...circuits.values()].flatMap((circuit) => {
    const does = circuit.figures.text('does')?.value;
    const gives = GIVING.has(circuit.kind);
    return does !== undefined && (gives || TAKING.has(circuit.kind)) ? [{ circuit, does, gives }] : [];
  }),
);

/** The inputs of other parts for what an output does, where none of them is wired and none is set to be out of use. */
export function unwiredInputsFor(
  analysis: MachineAnalysis,
  { part, circuit }: CircuitAt,
): readonly CircuitAt[] {
  const does = circuit.figures.text('does')?.value;
  if (does === undefined || !GIVING.has(circuit.kind)) return [];
  const others = (purposesIn(analysis).taking.get(does) ?? []).filter((input) => input.part !== part);
  if (others.some((input) => isSignalWired(analysis, input))) return [];
  return others.filter(({ part: { name }, circuit: input }) => {
    const owner = analysis.machine.parts.get(name);
    const use = owner && keyedInMeaning(analysis.machine.file, owner, 'input-use', { circuit: input.name });
    return use?.scalar.text !== 'off';
  });
}

/** The terminal that carries the signal of a circuit: the output of a sensor, the first end of all others. */
export function signalOf({ part, circuit }: CircuitAt): string {
  return terminalId(part.name, circuit.ends[circuit.kind === 'sensor' ? 2 : 0]?.text ?? '');
}

/** Whether a link ends at the signal of a circuit. */
export function isSignalWired({ nets }: MachineAnalysis, at: CircuitAt): boolean {
  return nets.isWired(signalOf(at));
}
