import type { Board } from './board.ts';
import type { Budget } from './budget.ts';
import { composeCircuit, type Short } from './circuit.ts';
import type { Element } from './element.ts';
import type { Fault, FaultRow, InputFaults } from './faults.ts';
import { type Both, type BreakOf, TOO_LARGE } from './felt-breaks.ts';
import { plainView, type View } from './groups.ts';
import { actsAt, type SolvedInput, type SolvedMachine, solveWith } from './inputs.ts';
import { type Holds, loseSupply, type Supply } from './rails.ts';
import { readInput, type Sight } from './reading.ts';
import { isHeld } from './relays.ts';
import { solveState } from './states.ts';
import type { Surroundings } from './surroundings.ts';
import { judgeFault, type Verdict } from './verdict.ts';

/** What the faults of one input share with those of others. */
interface Shared {
  readonly breakOf: BreakOf;
  readonly losses: (supply: Supply) => Holds;
  readonly budget: Budget;
}

/** The rails of a board while one supply gives nothing, each worked out when it is first asked for. */
export function createLosses(board: Board): Shared['losses'] {
  const losses = new Map<Supply, Holds>();
  return (supply) => {
    const known = losses.get(supply);
    if (known) return known;
    const holds = loseSupply(board.rails, board.supplies, supply, (terminal) => board.nodeOf[terminal] ?? 0);
    losses.set(supply, holds);
    return holds;
  };
}

/** Solves the single faults of one input. */
export function solveFaults(
  solved: SolvedMachine,
  input: SolvedInput,
  around: Surroundings,
  { breakOf, losses, budget }: Shared,
): InputFaults {
  const { board } = solved;
  const rows: FaultRow[] = [];
  const add = (fault: Fault, { rest, operated }: Both) => {
    const acts = { rest: actsAt(rest.level, input.sense), operated: actsAt(operated.level, input.sense) };
    const verdict = judgeSights(input, rest, operated, acts);
    if (verdict !== 'harmless') rows.push({ input, fault, rest, operated, verdict });
  };
  for (const conductor of around.links) {
    const seen = breakOf(conductor).felt.get(input.element);
    if (conductor.link && seen) add({ kind: 'broken', link: conductor.link }, seen);
  }
  for (const short of around.near) {
    const seen = solveBoth(solved, plainView(board), input, budget, short);
    add({ kind: 'shorted', terminal: short.terminal, rail: short.name, volts: short.volts }, seen);
  }
  for (const { weld, seen } of solveWelds(solved, input, budget)) add({ kind: 'welded', ...weld }, seen);
  for (const supply of suppliesOf(board, input)) {
    const view = { ...plainView(board), holds: losses(supply) };
    add({ kind: 'supply-lost', supply }, solveBoth(solved, view, input, budget));
  }
  return { ...around, input, rows };
}

function solveBoth(
  { board, held }: SolvedMachine,
  view: View,
  input: SolvedInput,
  budget: Budget,
  short?: Short,
): Both {
  if (!budget.allows(input.group)) return TOO_LARGE;
  const circuit = composeCircuit(board, view, input.group, short);
  const rest = readInput(solveWith(circuit, held), input.element);
  const actor = input.operations[0]?.actor;
  return { rest, operated: actor ? readInput(solveWith(circuit, held, actor), input.element) : rest };
}

/** A short or a weld that makes the supplies fight takes them down: seen at once at rest, at the next use otherwise. */
function judgeSights(
  input: SolvedInput,
  rest: Sight,
  operated: Sight,
  acts: { readonly rest: boolean | undefined; readonly operated: boolean | undefined },
): Verdict {
  if (rest.trouble === 'contradiction') return 'at-once';
  const verdict = judgeFault(input, acts);
  return operated.trouble === 'contradiction' && verdict !== 'at-once' ? 'next-use' : verdict;
}

/** A contact that stays as it is: closed, or for a changeover on one of its sides. */
interface Weld {
  readonly part: string;
  readonly circuit: string;
  readonly side?: 'closed' | 'open';
}

/** Contacts that stay closed, unless the actuator itself forces them open. */
function* solveWelds(
  { board, held }: SolvedMachine,
  input: SolvedInput,
  budget: Budget,
): Generator<{ readonly weld: Weld; readonly seen: Both }> {
  const actor = input.operations[0]?.actor;
  for (const place of actor?.elements ?? []) {
    const element = board.elements[place];
    if (!element || element.at.circuit.figures.flag('direct-opening')?.value === true) continue;
    for (const { isOperated, ...side } of weldsOf(element)) {
      if (!budget.allows(input.group)) continue;
      const circuit = composeCircuit(board, plainView(board), input.group);
      const sightWith = (isActing: boolean): Sight => {
        const solution = solveState(circuit, (each) => {
          if (each === place) return isOperated;
          return isHeld(board, held, each) !== (isActing && (actor?.elements.includes(each) ?? false));
        });
        return readInput(solution, input.element);
      };
      const { part, circuit: contact } = element.at;
      const seen = { rest: sightWith(false), operated: sightWith(true) };
      yield { weld: { part: part.name, circuit: contact.name, ...side }, seen };
    }
  }
}

/** The states in which the contacts of an element can stay. */
function weldsOf({ at, rest }: Element): readonly (Pick<Weld, 'side'> & { readonly isOperated: boolean })[] {
  if (at.circuit.kind === 'contact') return [{ isOperated: rest.length === 0 }];
  if (at.circuit.kind !== 'changeover') return [];
  return [
    { side: 'closed', isOperated: false },
    { side: 'open', isOperated: true },
  ];
}

/** The supplies whose plus the circuits of an input's group hang on. */
function suppliesOf(board: Board, { group }: SolvedInput): Supply[] {
  const found = new Set<Supply>();
  for (const element of group.elements) {
    for (const end of board.endsOf[element] ?? []) {
      const node = board.nodeOf[end] ?? -1;
      for (const { supply, terminal } of board.supplyEndsOn.get(node) ?? []) {
        if (terminal === supply.plus) found.add(supply);
      }
    }
  }
  return [...found];
}
