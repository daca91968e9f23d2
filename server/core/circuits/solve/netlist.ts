import { nameLink } from '../../model/link-number.ts';
import type { Machine } from '../../model/resolve.ts';
import { actorsIn } from './actors.ts';
import { type Circuit, composeCircuit } from './circuit.ts';
import { type Group, partsOf, plainView } from './groups.ts';
import { type SolvedMachine, solveWith } from './inputs.ts';
import { circuitsOf } from './solved.ts';
import { spiceNode, writeSpice } from './spice.ts';
import type { Solution } from './states.ts';

/** A group in one state as SPICE text. */
interface Netlist {
  readonly group: string;
  readonly text: string;
}

/** What was asked for and is not there, with the names that are. */
interface NoSuchName {
  readonly missing: 'group' | 'actor';
  readonly known: readonly string[];
}

/**
 * Writes groups of a machine as SPICE text.
 * @param group a group's name; all groups that look at something when left out
 * @param operated the actor that is operated; everything is at rest when left out
 */
export function writeNetlists(
  machine: Machine,
  group?: string,
  operated?: string,
): readonly Netlist[] | NoSuchName {
  const { solved } = circuitsOf(machine);
  const { board, groups } = solved;
  const looking = groups.filter(({ elements }) => elements.some((element) => board.elements[element]?.reads));
  const chosen = group === undefined ? looking : groups.filter((each) => isCalled(solved, each, group));
  if (chosen.length === 0 && group !== undefined)
    return { missing: 'group', known: looking.map(({ name }) => name) };
  const acting = chosen.filter((each) => actorsIn(board, each).some(({ name }) => name === operated));
  if (operated !== undefined && acting.length === 0) {
    const known = chosen.flatMap((each) => actorsIn(board, each).map(({ name }) => name));
    return { missing: 'actor', known: [...new Set(known)] };
  }
  return (operated === undefined ? chosen : acting).map((each) =>
    writeGroup(machine, solved, each, operated),
  );
}

/** A group answers to the names of all circuits in it. */
function isCalled({ board }: SolvedMachine, { elements }: Group, name: string): boolean {
  return elements.some((element) => {
    const at = board.elements[element]?.at;
    return at !== undefined && `${at.part.name}.${at.circuit.name}` === name;
  });
}

function writeGroup(
  machine: Machine,
  { board, held }: SolvedMachine,
  group: Group,
  operated: string | undefined,
): Netlist {
  const circuit = composeCircuit(board, plainView(board), group);
  const actor = actorsIn(board, group).find(({ name }) => name === operated);
  const solution = solveWith(circuit, held, actor);
  const state = actor ? `${actor.name} operated` : 'at rest';
  const notes = [
    `parts: ${partsOf(board, group).join(', ')}`,
    ...describeNodes(circuit, solution),
    'rails are ideal; wires that belong to no rail have the resistance of their gauge and length',
  ];
  const text = writeSpice(solution.composed.network, `${group.name}, ${state}`, notes, (branch) =>
    nameBranch(machine, solution, branch),
  );
  return { group: group.name, text };
}

/** What each node of the text is on the machine, and what it was solved to. */
function describeNodes({ board, numberOf }: Circuit, { composed, outcome }: Solution): string[] {
  const beyond = board.conductors.terminals.length;
  return [...numberOf].map(([node, number]) => {
    const on = node === beyond ? [] : board.terminalsOn(node);
    const names = on.map((terminal) => board.conductors.terminals[terminal]);
    const listed =
      names.length > 6 ? `${names.slice(0, 6).join(' ')} and ${names.length - 6} more` : names.join(' ');
    const volts =
      outcome.kind === 'solved' ? `, solved to ${(outcome.volts[number] ?? 0).toPrecision(6)} V` : '';
    return `${spiceNode(composed.network, number)} is ${listed}${volts}`;
  });
}

function nameBranch(machine: Machine, { circuit, composed, states }: Solution, branch: number): string {
  const part = composed.starts.findLastIndex((start) => start <= branch);
  const at = circuit.board.elements[circuit.parts[part]?.element ?? -1]?.at;
  if (at) return `${at.part.name}.${at.circuit.name} ${states[part] ?? ''}`;
  const holds = circuit.fixed.length - circuit.group.wires.length;
  const link = circuit.group.wires[branch - holds]?.link;
  return link ? `wire ${nameLink(machine, link)}` : 'rail';
}
