import type { Link } from '../../model/wiring.ts';
import { actorsIn } from './actors.ts';
import type { Board } from './board.ts';
import { breakConductor, findWaysHome, groupOfBreak, linksFelt } from './breaks.ts';
import { type Budget, createBudget } from './budget.ts';
import { composeCircuit, type Short } from './circuit.ts';
import { plainView, type View } from './groups.ts';
import { actsAt, type SolvedInput, type SolvedMachine, solveWith } from './inputs.ts';
import { type Holds, loseSupply, type Supply } from './rails.ts';
import { nothing, readInput, type Sight } from './reading.ts';
import { isHeld } from './relays.ts';
import { railsNear } from './shorts.ts';
import { solveState } from './states.ts';
import { judgeFault, type Verdict } from './verdict.ts';

/** One thing that can go wrong with the wiring of an input. */
export type Fault =
  | { readonly kind: 'broken'; readonly link: Link }
  /** The input's signal touches a rail, named by one of its terminals. */
  | { readonly kind: 'shorted'; readonly rail: string; readonly volts: number }
  /** The contact of a part stays closed. */
  | { readonly kind: 'welded'; readonly part: string; readonly circuit: string }
  | { readonly kind: 'supply-lost'; readonly supply: Supply };

/** What a fault does to an input. */
export interface FaultRow {
  readonly input: SolvedInput;
  readonly fault: Fault;
  readonly rest: Sight;
  /** With the actor operated that changes the healthy input most. */
  readonly operated: Sight;
  readonly verdict: Verdict;
}

/**
 * Solves every single fault of every input whose function is known to act while it is healthy: what never acts is
 * a mistake of another kind. Faults that change nothing are left out.
 */
export function findFaults(solved: SolvedMachine): FaultRow[] {
  const { board, inputs } = solved;
  const waysHome = findWaysHome(board);
  const budget = createBudget();
  const breaks = new Map<number, ReadonlyMap<number, Both>>();
  const losses = new Map<Supply, Holds>();
  const healthy = inputs.filter(isHealthy);
  const byElement = new Map(healthy.map((input) => [input.element, input]));
  return healthy.flatMap((input) => {
    const rows: FaultRow[] = [];
    const add = (fault: Fault, rest: Sight | undefined, operated: Sight | undefined) => {
      if (!rest || !operated) return;
      const acts = {
        rest: actsAt(rest.level, input.sense),
        operated: actsAt(operated.level, input.sense),
      };
      const verdict =
        fault.kind === 'shorted' ? judgeShort(input, rest, operated, acts) : judgeFault(input, acts);
      if (verdict !== 'harmless') rows.push({ input, fault, rest, operated, verdict });
    };
    for (const place of linksFelt(board, waysHome, input.group)) {
      const felt = breaks.get(place) ?? solveBroken(solved, place, byElement, budget);
      breaks.set(place, felt);
      const link = board.conductors.all[place]?.link;
      const seen = felt.get(input.element);
      if (link && seen) add({ kind: 'broken', link }, seen.rest, seen.operated);
    }
    for (const short of railsNear(board, input)) {
      const { rest, operated } = solveBoth(solved, plainView(board), input, budget, short);
      add({ kind: 'shorted', rail: short.name, volts: short.volts }, rest, operated);
    }
    addWelds(solved, input, budget, add);
    for (const supply of suppliesOf(board, input)) {
      let holds = losses.get(supply);
      if (!holds) {
        holds = loseSupply(board.rails, board.supplies, supply, (terminal) => board.nodeOf[terminal] ?? 0);
        losses.set(supply, holds);
      }
      const view = { ...plainView(board), holds };
      const { rest, operated } = solveBoth(solved, view, input, budget);
      add({ kind: 'supply-lost', supply }, rest, operated);
    }
    return rows;
  });
}

/** An input in use whose function is told apart from its rest by what acts on it. */
function isHealthy({ acts, operations, sense }: SolvedInput): boolean {
  const operated = operations[0]?.acts;
  return sense.inUse && acts !== undefined && operated !== undefined && acts !== operated;
}

/** What an input sees at rest and with its actor operated. */
interface Both {
  readonly rest: Sight;
  readonly operated: Sight;
}

const TOO_LARGE: Both = { rest: nothing('too-large'), operated: nothing('too-large') };

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

/** Solves what feels a break, for all inputs that do; nobody does where it makes no difference. */
function solveBroken(
  { board, held }: SolvedMachine,
  place: number,
  inputs: ReadonlyMap<number, SolvedInput>,
  budget: Budget,
): ReadonlyMap<number, Both> {
  const felt = new Map<number, Both>();
  const broken = breakConductor(board, place);
  if (!broken) return felt;
  const group = groupOfBreak(board, broken);
  const looking = group.elements.flatMap((element) => inputs.get(element) ?? []);
  if (!budget.allows(group)) return new Map(looking.map(({ element }) => [element, TOO_LARGE]));
  const circuit = composeCircuit(board, broken.view, group);
  const rest = solveWith(circuit, held);
  const actors = new Map(actorsIn(board, group).map((actor) => [actor.name, actor]));
  for (const [name, acted] of groupByActor(looking)) {
    const actor = actors.get(name);
    const isAllowed = actor === undefined || budget.allows(group);
    const operated = actor && isAllowed ? solveWith(circuit, held, actor) : rest;
    for (const { element } of acted) {
      const both = { rest: readInput(rest, element), operated: readInput(operated, element) };
      felt.set(element, isAllowed ? both : TOO_LARGE);
    }
  }
  return felt;
}

/** Inputs by the actor that changes them most. */
function groupByActor(inputs: readonly SolvedInput[]): Map<string, SolvedInput[]> {
  const byActor = new Map<string, SolvedInput[]>();
  for (const input of inputs) {
    const name = input.operations[0]?.actor.name ?? '';
    const there = byActor.get(name);
    if (there) there.push(input);
    else byActor.set(name, [input]);
  }
  return byActor;
}

/** A short that makes the supplies fight takes them down: seen at once at rest, at the next use otherwise. */
function judgeShort(
  input: SolvedInput,
  rest: Sight,
  operated: Sight,
  acts: { readonly rest: boolean | undefined; readonly operated: boolean | undefined },
): Verdict {
  if (rest.trouble === 'contradiction') return 'at-once';
  const verdict = judgeFault(input, acts);
  return operated.trouble === 'contradiction' && verdict !== 'at-once' ? 'next-use' : verdict;
}

/** Contacts that stay closed, unless the actuator itself forces them open. */
function addWelds(
  { board, held }: SolvedMachine,
  input: SolvedInput,
  budget: Budget,
  add: (fault: Fault, rest: Sight, operated: Sight) => void,
): void {
  const actor = input.operations[0]?.actor;
  for (const place of actor?.elements ?? []) {
    const element = board.elements[place];
    if (element?.at.circuit.kind !== 'contact') continue;
    if (element.at.circuit.figures.flag('direct-opening')?.value === true) continue;
    if (!budget.allows(input.group)) continue;
    const isClosedAtRest = element.rest.length > 0;
    const circuit = composeCircuit(board, plainView(board), input.group);
    const sightWith = (isOperated: boolean) => {
      const solution = solveState(circuit, (each) => {
        if (each === place) return !isClosedAtRest;
        return isHeld(board, held, each) !== (isOperated && (actor?.elements.includes(each) ?? false));
      });
      return readInput(solution, input.element);
    };
    const { part, circuit: contact } = element.at;
    add({ kind: 'welded', part: part.name, circuit: contact.name }, sightWith(false), sightWith(true));
  }
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
