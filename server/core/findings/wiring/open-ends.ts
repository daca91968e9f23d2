import type { MachineAnalysis } from '../../analysis.ts';
import { type OpenCircuit, type OpenCircuits, openCircuitsOf } from '../../circuits/loops/open-circuits.ts';
import { type CircuitAt, isOutput } from '../../circuits/signals.ts';
import { listElements } from '../../circuits/solve/board.ts';
import { groupOf } from '../../circuits/solve/grouping.ts';
import type { Group } from '../../circuits/solve/groups.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { circuitsOf } from '../../circuits/solve/solved.ts';
import { groupBy } from '../../group.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { isAnyBlockBroken, partsInDoubt } from '../common/held-back.ts';
import { partsBetween } from '../power/half-feeds.ts';
import { strayMains } from '../power/stray-mains.ts';
import { awaitedInputs } from './awaited.ts';
import { unwiredInputsFor } from './counterparts.ts';
import { needlessEnds } from './doubled-links.ts';
import { findLooseEnd } from './loose-end.ts';
import { findUnconnected, type Unconnected } from './needed.ts';
import { outputFights } from './output-fights.ts';
import { purposesOf } from './purposes.ts';
import { suppliesInConflict, switchedShorts } from './rail-conflicts.ts';

/** An open circuit as a finding of its own tells it. */
export interface NoReturn {
  readonly open: OpenCircuit;
  /** The input that waits for a wire from it, where it needs nothing else itself. */
  readonly awaited: CircuitAt | undefined;
}

/** What is said of circuits that no current can flow through, and by which finding. */
export interface OpenEnds {
  readonly circuits: OpenCircuits;
  /** Needed terminals that go nowhere. */
  readonly unconnected: readonly Unconnected[];
  readonly noReturns: readonly NoReturn[];
  /** All open circuits of which one or the other is said. */
  readonly told: ReadonlySet<OpenCircuit>;
}

/** Shares open circuits out among the findings, so that one missing wire is told once. */
export const openEndsOf = fact('analysis', shareOut);

function shareOut(analysis: MachineAnalysis): OpenEnds {
  const circuits = openCircuitsOf(analysis.machine);
  if (isAnyBlockBroken(analysis)) return { circuits, unconnected: [], noReturns: [], told: new Set() };
  const doubtful = partsInDoubt(analysis);
  const isSure = ({ legs }: OpenCircuit) =>
    legs.every(({ at }) => !doubtful.has(at?.part.name ?? '') && (at === undefined || hasItsTerminals(at)));
  const lacks = findUnconnected(analysis).filter(({ part }) => !doubtful.has(part.name));
  const lost = lostReturns(analysis, circuits, lacks);
  // What the mains come to lacks its supply because its wire is on the wrong terminal, and so does what hangs on another.
  const stray = new Set([...strayMains(analysis).map(({ end }) => end.part.name), ...partsBetween(analysis)]);
  // A link that joins nothing new was meant for what is open beside it.
  const needless = new Set(
    needlessEnds(analysis).map((end) => circuits.nodeOf[circuits.placeOf.get(end) ?? -1]),
  );
  const conflicting = suppliesInConflict(analysis);
  // An output that a supply holds has its wire in the wrong place.
  const held = new Set(
    outputFights(analysis).flatMap(({ outputs, rail }) =>
      rail ? outputs.map(({ at }) => terminalId(at.part.name, at.circuit.name)) : [],
    ),
  );
  const isHeld = (at: CircuitAt | undefined) =>
    at !== undefined && held.has(terminalId(at.part.name, at.circuit.name));
  const isStray = ({ legs, loose, anchors }: OpenCircuit) =>
    legs.some(({ at }) => isHeld(at)) ||
    anchors.some((node) => hangsOn(circuits, node, conflicting)) ||
    legs.some(({ a, b, at }) => stray.has(at?.part.name ?? '') || needless.has(a) || needless.has(b)) ||
    loose.some((node) => needless.has(node));
  const unconnected = lacks.filter((lack) => {
    const open = openOf(circuits, lack);
    return !lost.has(lack) && !stray.has(lack.part.name) && !(open && isStray(open));
  });
  const told = new Set([
    ...unconnected.flatMap((lack) => openOf(circuits, lack) ?? []),
    ...circuits.all.filter(isStray),
  ]);
  const others = circuits.all.filter((open) => !told.has(open) && isSure(open) && !isHalfPair(open));
  const noReturns: NoReturn[] = [];
  const tell = (open: OpenCircuit, awaited?: CircuitAt) => {
    noReturns.push({ open, awaited });
    told.add(open);
  };
  for (const open of others) if (open.legs.some((leg) => leg.consumes)) tell(open);
  // What needs no current itself is probably the other half of something that does, and lacks the same wire.
  const islands = new Set([...told].flatMap((open) => [...open.islands]));
  for (const open of others) {
    const isElsewhere = [...open.islands].some((island) => islands.has(island));
    if (told.has(open) || isElsewhere || isUnheard(analysis, open)) continue;
    tell(open, awaitedInputs(analysis, circuits, open)[0]);
    for (const island of open.islands) islands.add(island);
  }
  return { circuits, unconnected, noReturns, told };
}

/** Whether a terminal of some parts is on a node. */
function hangsOn({ terminalsOn }: OpenCircuits, node: number, parts: ReadonlySet<string>): boolean {
  if (parts.size === 0) return false;
  return terminalsOn(node).some((terminal) => parts.has(terminal.slice(0, terminal.indexOf('.'))));
}

/** False for a circuit that its sheet puts between terminals which it does not list: they are misspelt. */
function hasItsTerminals({ part, circuit }: CircuitAt): boolean {
  return circuit.ends.every(({ text }) => part.sheet?.terminals.has(text));
}

function openOf({ of }: OpenCircuits, { part, circuit }: Unconnected): OpenCircuit | undefined {
  return of.get(terminalId(part.name, circuit.name));
}

/**
 * Loads whose way back ends at another part: at a fuse or bar without its feed, or several of them together. They lack a
 * wire that does not end at any of them.
 */
function lostReturns(
  analysis: MachineAnalysis,
  circuits: OpenCircuits,
  lacks: readonly Unconnected[],
): ReadonlySet<Unconnected> {
  const byOpen = groupBy(lacks, (lack) => openOf(circuits, lack));
  const lost = [...byOpen].flatMap(([open, group]) => {
    if (!open || group.some(({ why }) => why !== 'return')) return [];
    const { free } = findLooseEnd(analysis, circuits, open);
    const isElsewhere = free !== undefined && group.every(({ part }) => !free.startsWith(`${part.name}.`));
    return group.length > 1 || isElsewhere ? group : [];
  });
  return new Set(lost);
}

/** One half of a pair on an input for single signals, which has a ground that the sheet does not tell: told as such. */
function isHalfPair({ legs }: OpenCircuit): boolean {
  const kinds = new Set(legs.map(({ at }) => at?.circuit.kind));
  return kinds.has('line-out') && !kinds.has('line-in');
}

/** An output for which there is an input of the same purpose that nothing is wired to: that is told as such. */
function isUnheard(analysis: MachineAnalysis, { legs }: OpenCircuit): boolean {
  const outputs = new Set(legs.flatMap(({ at }) => at ?? []));
  return [...outputs].some((output) => unwiredInputsFor(analysis, output).length > 0);
}

/** Whether anything is said of open circuits. */
export function isAnythingOpen(analysis: MachineAnalysis): boolean {
  const { told, unconnected } = openEndsOf(analysis);
  return told.size + unconnected.length > 0;
}

/** Whether a part has open circuits: what can be traced through it is not what was meant. */
export function isPartOpen(analysis: MachineAnalysis, name: string): boolean {
  return openEndsOf(analysis).circuits.all.some(({ legs }) => legs.some(({ at }) => at?.part.name === name));
}

/** Whether a finding about an open contact or sensor, or about one that shorts a supply, tells of an unwired input. */
export function isAwaited(analysis: MachineAnalysis, { part, circuit }: CircuitAt): boolean {
  const does = circuit.figures.text('does')?.value ?? '';
  return (
    openEndsOf(analysis).noReturns.some(
      ({ awaited }) => awaited?.part.name === part.name && awaited.circuit === circuit,
    ) || switchedShorts(analysis).some((short) => purposesOf(analysis, short.part).includes(does))
  );
}

/**
 * Whether something in the circuit of an input is open and a finding says so: what the input sees follows from that.
 */
export function isToldOpen(analysis: MachineAnalysis, input: SolvedInput): boolean {
  return openGroupsOf(analysis).has(input.group);
}

const openGroupsOf = fact('analysis', openGroups);

function openGroups(analysis: MachineAnalysis): ReadonlySet<Group> {
  const { circuits, unconnected, told } = openEndsOf(analysis);
  const open = new Set<Group>();
  if (told.size === 0 && unconnected.length === 0) return open;
  const lacking = new Set(unconnected.map(({ part, circuit }) => terminalId(part.name, circuit.name)));
  const unfed = new Set(
    unconnected.flatMap(({ part, circuit: { kind } }) => (kind === 'power-in' ? part.name : [])),
  );
  const { solved } = circuitsOf(analysis.machine);
  for (const [place, { at }] of listElements(solved.board)) {
    const name = terminalId(at.part.name, at.circuit.name);
    const circuit = circuits.of.get(name);
    const isOpen = lacking.has(name) || (circuit !== undefined && told.has(circuit));
    const group =
      isOpen || (isOutput(at.circuit) && unfed.has(at.part.name)) ? groupOf(solved, place) : undefined;
    if (group) open.add(group);
  }
  return open;
}
