import type { MachineAnalysis } from '../../analysis.ts';
import { type Board, listElements } from '../../circuits/solve/board.ts';
import type { Element } from '../../circuits/solve/element.ts';
import { groupOf } from '../../circuits/solve/grouping.ts';
import type { Group } from '../../circuits/solve/groups.ts';
import { findClashes, findLoads } from '../../circuits/solve/loads.ts';
import { circuitsOf } from '../../circuits/solve/solved.ts';
import { fact } from '../../reuse/fact.ts';
import { keptBy } from '../../reuse/kept-by.ts';

/** Outputs that drive one net against each other. */
export interface OutputFight {
  readonly outputs: readonly Element[];
  readonly group: Group;
  /** The most that flows between them, in A; undefined where nothing limits it. */
  readonly amps: number | undefined;
  /** For an analog output that is joined to a supply: the terminal that holds its signal, and at what, in V. */
  readonly rail?: { readonly terminal: string; readonly volts: number };
}

/**
 * Finds outputs and sensors on one net between which, in some state, more flows than one of them can carry: one pulls
 * the net up while the other pulls it down. Transistors that all pull the same way may share a net. An analog output gives
 * a voltage of its own at all times, so a supply on its signal is against it whatever flows.
 */
export const outputFights = fact('analysis', ({ machine }: MachineAnalysis): readonly OutputFight[] =>
  findFights(circuitsOf(machine).solved),
);

/** What an output without a stated rating hardly carries (common practice, no source). */
const MUCH = 1;

function findFights(solved: ReturnType<typeof circuitsOf>['solved']): OutputFight[] {
  const { board } = solved;
  const onRails = againstRails(solved);
  const shared = [...outputsByNode(board).values()].filter((places) => places.length > 1);
  if (shared.length === 0) return onRails;
  const over = new Map(
    findLoads(solved, ({ amps, rated = MUCH }) => amps > rated).map(({ element, amps }) => [element, amps]),
  );
  const clashes = findClashes(solved);
  const fights = shared.flatMap((places): OutputFight[] => {
    const outputs = places.flatMap((place) => board.elements[place] ?? []);
    const group = groupOf(solved, places[0] ?? -1);
    const amps = Math.max(0, ...outputs.map((output) => over.get(output) ?? 0));
    const isClash = clashes.some((clash) => clash.group === group);
    return group && (amps > 0 || isClash) ? [{ outputs, group, amps: isClash ? undefined : amps }] : [];
  });
  return [...onRails, ...fights];
}

/** The analog outputs whose signal stands on a side of a supply. */
function againstRails(solved: ReturnType<typeof circuitsOf>['solved']): OutputFight[] {
  const { board } = solved;
  return analogAmong(listElements(board)).flatMap(([place, output]): OutputFight[] => {
    const node = board.nodeOf[board.endsOf[place]?.[0] ?? -1] ?? -1;
    const hold = board.rails.holds.get(node);
    const [end] = hold ? (board.supplyEndsOn.get(node) ?? []) : [];
    const group = groupOf(solved, place);
    if (!hold || !end || !group) return [];
    const terminal = board.conductors.terminals[end.terminal] ?? '';
    return [{ outputs: [output], group, amps: undefined, rail: { terminal, volts: hold.volts } }];
  });
}

const analogAmong = keptBy((elements: ReturnType<typeof listElements>) =>
  elements.filter(([, { at }]) => at.circuit.kind === 'analog-out'),
);

const outputsAmong = keptBy((elements: ReturnType<typeof listElements>) =>
  elements.filter(([, { mover }]) => mover === 'output' || mover === 'sensor'),
);

/** Places of outputs and sensors by the node on which their signal is; rails are no signals. */
function outputsByNode(board: Board): Map<number, number[]> {
  const byNode = new Map<number, number[]>();
  for (const [place, { at }] of outputsAmong(listElements(board))) {
    const ends = board.endsOf[place] ?? [];
    const signals =
      at.circuit.kind === 'line-out' ? ends.slice(0, 2) : [ends[at.circuit.kind === 'sensor' ? 2 : 0]];
    for (const end of signals) {
      // Wires with a resistance of their own keep two outputs no further apart.
      const node = end === undefined ? undefined : board.netOf[end];
      if (node === undefined || end === undefined || board.rails.holds.has(board.nodeOf[end] ?? -1)) continue;
      const there = byNode.get(node);
      if (there) there.push(place);
      else byNode.set(node, [place]);
    }
  }
  return byNode;
}
