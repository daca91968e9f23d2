import type { MachineAnalysis } from '../../analysis.ts';
import type { OpenCircuit } from '../../circuits/loops/open-circuits.ts';
import { type CircuitAt, isOutput } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { endsOf, findLooseEnd, isPassedOn, type LooseEnd } from './loose-end.ts';
import { openEndsOf } from './open-ends.ts';

/** A link that may close an open circuit: from one terminal to another. */
export type Closer = readonly [from: string, to: string];

/**
 * Links that may close an open circuit, the likeliest first. Whether they do is decided by solving again. None is
 * proposed for the mains: that is work for a licensed person.
 */
export function findClosers(
  analysis: MachineAnalysis,
  open: OpenCircuit,
  loose: LooseEnd,
  awaited: CircuitAt | undefined,
): Closer[] {
  if (open.legs.some(({ at }) => at === undefined || at.circuit.kind === 'mains-in')) return [];
  if (loose.why === 'common') return commons(analysis, open);
  const from = loose.free ?? loose.name;
  if (awaited) return [[from, terminalId(awaited.part.name, awaited.circuit.ends[0]?.text ?? '')]];
  const returns = returnsOf(analysis, open);
  const outputs = open.legs.some(isSwitch) ? [] : freeOutputs(analysis, open);
  const targets = [
    ...otherEnds(analysis, open, loose),
    ...returns,
    ...outputs,
    // What gives its own voltage takes its current back itself, and what an output should switch is not joined for good.
    ...(returns.length + outputs.length > 0 ? [] : otherPoles(analysis, open)),
    ...looseNear(analysis, open),
  ];
  return [...new Set(targets)].filter((to) => to !== from).map((to) => [from, to]);
}

/** Whether a leg is a contact, a sensor or an output, so that something switches the circuit. */
function isSwitch({ at }: OpenCircuit['legs'][number]): boolean {
  return (
    at !== undefined &&
    (/^(?:contact|changeover)$/.test(at.circuit.kind) || /sensor|-out$/.test(at.circuit.kind))
  );
}

/** Where the circuit has a second loose end, that is what the first one is for. */
function otherEnds(analysis: MachineAnalysis, open: OpenCircuit, { terminals }: LooseEnd): string[] {
  const { circuits } = openEndsOf(analysis);
  const ends = endsOf(open);
  const isOpen = (name: string) =>
    !analysis.nets.isWired(name) &&
    !terminals.includes(name) &&
    (ends.has(name) || isPassedOn(analysis, name));
  return open.loose.flatMap((node) => circuits.terminalsOn(node).find(isOpen) ?? []);
}

/** The ends at which a pulled-up input or an output of the circuit takes its current back. */
function returnsOf(analysis: MachineAnalysis, { legs, anchors }: OpenCircuit): string[] {
  const { nodeOf, placeOf } = openEndsOf(analysis).circuits;
  return legs.flatMap(({ at, drives }) =>
    drives === 0 || !at
      ? []
      : at.circuit.ends
          .map((end) => terminalId(at.part.name, end.text))
          .filter((terminal) => anchors.includes(nodeOf[placeOf.get(terminal) ?? -1] ?? -1)),
  );
}

/** The other poles of the supplies on which the circuit hangs, those of its own parts first. */
function otherPoles(analysis: MachineAnalysis, open: OpenCircuit): string[] {
  const { nodeOf, placeOf } = openEndsOf(analysis).circuits;
  const ends = endsOf(open);
  const parts = new Set(open.legs.flatMap(({ at }) => at?.part.name ?? []));
  const isLoad = open.legs.some(({ at }) => at?.circuit.kind === 'coil' || at?.circuit.kind === 'power-in');
  const found = circuitsOfKind(analysis.machine, 'power-out').flatMap(({ part, circuit }) => {
    const poles = circuit.ends.map((end) => terminalId(part.name, end.text));
    const nodes = poles.map((pole) => nodeOf[placeOf.get(pole) ?? -1] ?? -1);
    return poles.flatMap((pole, index) => {
      const other = poles[1 - index];
      const node = nodes[1 - index];
      if (!open.anchors.includes(nodes[index] ?? -1) || other === undefined || node === undefined) return [];
      const isOwn = ends.has(pole);
      const isForLoads = part.sheet?.partClass === 'supply';
      const nearness = isLoad && isForLoads ? 0 : isOwn ? 1 : parts.has(part.name) ? 2 : 3;
      return [{ terminal: outletOf(analysis, node, other, isOwn), nearness }];
    });
  });
  found.sort((a, b) => a.nearness - b.nearness);
  // A load is for the supply that loads are for, where there is one.
  const best = found[0]?.nearness;
  return found.filter(({ nearness }) => !isLoad || nearness === best).map(({ terminal }) => terminal);
}

/** A free terminal of a fuse on a node, or of a bar where that stands beside the circuit; else the terminal itself. */
function outletOf(analysis: MachineAnalysis, node: number, terminal: string, isNear: boolean): string {
  const { circuits } = openEndsOf(analysis);
  const free = circuits
    .terminalsOn(node)
    .filter((each) => !analysis.nets.isWired(each) && isPassedOn(analysis, each));
  return free.find((each) => isNear || isFuse(analysis, each)) ?? terminal;
}

function isFuse({ machine }: MachineAnalysis, terminal: string): boolean {
  const part = machine.parts.get(terminal.slice(0, terminal.indexOf('.')));
  return [...(part?.sheet?.circuits.values() ?? [])].some(({ kind }) => kind === 'fuse');
}

/** Loose ends of other open circuits that hang on the same supplies. */
function looseNear(analysis: MachineAnalysis, open: OpenCircuit): string[] {
  const { circuits } = openEndsOf(analysis);
  return circuits.all
    .filter((other) => other !== open && [...other.islands].some((island) => open.islands.has(island)))
    .flatMap((other) => findLooseEnd(analysis, circuits, other).free ?? []);
}

/** The one output on the same supplies to which nothing is wired; several are a choice that is not ours. */
function freeOutputs(analysis: MachineAnalysis, { islands }: OpenCircuit): string[] {
  const { machine, nets } = analysis;
  const { nodeOf, placeOf, islandOf } = openEndsOf(analysis).circuits;
  const found = partsWithSheets(machine).flatMap(({ part, sheet }) =>
    [...sheet.circuits.values()].flatMap((circuit) => {
      const [signal = '', back = ''] = circuit.ends.map((end) => terminalId(part.name, end.text));
      const island = islandOf(nodeOf[placeOf.get(back) ?? -1] ?? -1);
      const isFree = isOutput(circuit) && circuit.does !== undefined && !nets.isWired(signal);
      return isFree && island !== undefined && islands.has(island) ? [signal] : [];
    }),
  );
  return found.length === 1 ? found : [];
}

/** Minus to minus, for circuits whose two sides hang on supplies without a common; at their own terminals if possible. */
function commons(analysis: MachineAnalysis, open: OpenCircuit): Closer[] {
  const { nodeOf, placeOf, islandOf } = openEndsOf(analysis).circuits;
  const nodeAt = (terminal: string) => nodeOf[placeOf.get(terminal) ?? -1] ?? -1;
  const own = new Map([...endsOf(open)].reverse().map((terminal) => [nodeAt(terminal), terminal]));
  const byIsland = new Map<number, string>();
  for (const { part, circuit } of circuitsOfKind(analysis.machine, 'power-out')) {
    const minus = terminalId(part.name, circuit.ends[1]?.text ?? '');
    const island = islandOf(nodeAt(minus));
    if (island === undefined || !open.islands.has(island)) continue;
    const end = own.get(nodeAt(minus));
    if (end !== undefined || !byIsland.has(island)) byIsland.set(island, end ?? minus);
  }
  const [from, ...others] = byIsland.values();
  return from === undefined ? [] : others.map((to) => [from, to]);
}
