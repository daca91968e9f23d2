import type { Link } from '../../model/wiring.ts';
import { actorsIn } from './actors.ts';
import type { Board } from './board.ts';
import { breakConductor, findWaysHome, groupOfBreak, linksFelt } from './breaks.ts';
import { type Budget, createBudget } from './budget.ts';
import { type Circuit, composeCircuit } from './circuit.ts';
import { plainView } from './groups.ts';
import { actsAt, type SolvedInput, type SolvedMachine, solveWith } from './inputs.ts';
import { type Holds, loseSupply, type Supply } from './rails.ts';
import { nothing, readInput, type Sight } from './reading.ts';
import { isHeld } from './relays.ts';
import { railsNear } from './shorts.ts';
import { type Solution, solveState } from './states.ts';
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
  const breaks = new Map<number, Broken | undefined>();
  const losses = new Map<Supply, Holds>();
  const healthy = inputs.filter(isHealthy);
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
      if (!breaks.has(place)) breaks.set(place, solveBroken(solved, place, budget));
      const link = board.conductors.all[place]?.link;
      const seen = breaks.get(place)?.(input);
      if (link && seen) add({ kind: 'broken', link }, seen.rest, seen.operated);
    }
    for (const short of railsNear(board, input)) {
      const circuit = composeCircuit(board, plainView(board), input.group, short);
      const { rest, operated } = solveBoth(solved, circuit, input, budget);
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
      const { rest, operated } = solveBoth(solved, composeCircuit(board, view, input.group), input, budget);
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

function solveBoth({ held }: SolvedMachine, circuit: Circuit, input: SolvedInput, budget: Budget): Both {
  if (!budget.allows(circuit)) return TOO_LARGE;
  const rest = readInput(solveWith(circuit, held), input.element);
  const actor = input.operations[0]?.actor;
  return { rest, operated: actor ? readInput(solveWith(circuit, held, actor), input.element) : rest };
}

type Broken = (input: SolvedInput) => Both | undefined;

/** Solves what feels a break, once for all inputs that do; undefined where it makes no difference. */
function solveBroken({ board, held }: SolvedMachine, place: number, budget: Budget): Broken | undefined {
  const broken = breakConductor(board, place);
  if (!broken) return undefined;
  const group = groupOfBreak(board, broken);
  const elements = new Set(group.elements);
  const circuit = composeCircuit(board, broken.view, group);
  const actors = new Map(actorsIn(board, group).map((actor) => [actor.name, actor]));
  const solutions = new Map<string, Solution | undefined>();
  const solutionWith = (name: string): Solution | undefined => {
    if (!solutions.has(name))
      solutions.set(name, budget.allows(circuit) ? solveWith(circuit, held, actors.get(name)) : undefined);
    return solutions.get(name);
  };
  return ({ element, operations }) => {
    if (!elements.has(element)) return undefined;
    const [rest, operated] = [solutionWith(''), solutionWith(operations[0]?.actor.name ?? '')];
    if (!rest || !operated) return TOO_LARGE;
    return { rest: readInput(rest, element), operated: readInput(operated, element) };
  };
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
    if (!budget.allows(circuit)) continue;
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
