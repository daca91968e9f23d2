import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { gives, takes } from '../circuits/signal-ends.ts';
import { type Hop, hopsOf } from '../circuits/signal-graph.ts';
import type { CircuitAt } from '../circuits/signals.ts';
import { mentionAt } from '../names/name.ts';
import type { Span } from '../syntax/node.ts';

/** A circuit of a part through which a signal goes. */
export interface Station {
  readonly part: string;
  readonly circuit: string;
  /** What it is for, or of which kind it is. */
  readonly about: string;
  /** The part's name in its entry. */
  readonly at: Span;
}

/** The next station of a signal, or the one before, with the way between. */
export interface Step {
  readonly station: Station;
  /** The links that the signal takes; a part's own entry where it stays inside the part. */
  readonly along: readonly Span[];
  /** The parts that it passes: strips, fuses, contacts in line. */
  readonly through: readonly string[];
}

/** The circuits of a machine that a name at an offset belongs to: those of a terminal, or all signals of a part. */
export function findStations(analysis: Analysis, offset: number): Station[] {
  if (analysis.kind !== 'machine') return [];
  const mention = mentionAt(analysis, offset);
  if (mention?.kind !== 'part' && mention?.kind !== 'terminal') return [];
  const part = analysis.machine.parts.get(mention.kind === 'part' ? mention.text : (mention.owner ?? ''));
  const circuits = [...(part?.sheet?.circuits.values() ?? [])].filter(
    (circuit) =>
      (gives(circuit) || takes(circuit)) &&
      (mention.kind === 'part' || circuit.ends.some((end) => end.text === mention.text)),
  );
  return circuits.flatMap((circuit) => (part ? [stationOf({ part, circuit })] : []));
}

/** What a circuit's signal reaches next. */
export function findNext(analysis: Analysis, { part, circuit }: Pick<Station, 'part' | 'circuit'>): Step[] {
  if (analysis.kind !== 'machine') return [];
  return hopsOf(analysis.machine)
    .filter(({ from }) => from.part.name === part && from.circuit.name === circuit)
    .map((hop) => stepOf(analysis, hop, hop.to));
}

/** Where a circuit's signal comes from. */
export function findBefore(analysis: Analysis, { part, circuit }: Pick<Station, 'part' | 'circuit'>): Step[] {
  if (analysis.kind !== 'machine') return [];
  return hopsOf(analysis.machine)
    .filter(({ to }) => to.part.name === part && to.circuit.name === circuit)
    .map((hop) => stepOf(analysis, hop, hop.from));
}

function stationOf({ part, circuit }: CircuitAt): Station {
  const about = circuit.figures.text('does')?.value ?? circuit.kind;
  return { part: part.name, circuit: circuit.name, about, at: part.key };
}

function stepOf({ tree }: MachineAnalysis, { links, through, from }: Hop, end: CircuitAt): Step {
  const along = links.map(({ at }) => at).filter((at) => tree.starts.get(at.block) !== undefined);
  return { station: stationOf(end), along: along.length > 0 ? along : [from.part.key], through };
}
