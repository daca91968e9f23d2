import { type Nets, netsOf } from '../circuits/nets.ts';
import type { FaultRow, InputFaults } from '../circuits/solve/faults.ts';
import type { SolvedInput } from '../circuits/solve/inputs.ts';
import type { Sight, Trouble } from '../circuits/solve/reading.ts';
import { faultsOf, gravest, inputsOf } from '../circuits/solve/solved.ts';
import type { Solution } from '../circuits/solve/states.ts';
import { later, say } from '../language/say.ts';
import { nameLink } from '../model/link-number.ts';
import type { Machine } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import { factIndex } from '../reuse/fact-index.ts';
import { isSameList } from '../same-list.ts';
import { describeLoop } from './circuit-loop.ts';
import { type Collector, constantInput, figureInput } from './collect.ts';
import { type Derived, derive, type Input, type Missing, type Recipe, showIn } from './derived.ts';
import { inputFrom } from './input.ts';
import { sectionOver } from './piece.ts';

const SOURCE = later`operating point of the circuit by Kirchhoff's laws; wires by gauge and length, rails ideal`;

/** What the leak that keeps loose nodes solvable may make of nothing: below this a voltage or a current is none. */
const NOTHING = { V: 1e-4, A: 1e-7 } as const;

/** The sheet's keys of the thresholds, on before off. */
const THRESHOLDS: Readonly<Record<string, readonly [on: string, off: string]>> = {
  'pulled-up-in': ['on-below', 'off-above'],
  'pulled-down-in': ['on-above', 'off-below'],
  'opto-in': ['on-at', 'off-at'],
};

/** A value, or what it lacks. */
type Line = Recipe | Missing;

/** What each wired input and coil sees at rest, operated and with a wire broken, and how far it is from its thresholds. */
export const deriveCircuits = sectionOver((machine) => inputsOf(machine), addInput);

function addInput(machine: Machine, input: SolvedInput, out: Collector): void {
  if (!isWired(netsOf(machine), input)) return;
  for (const line of deriveInput(machine, input, gravest(breaksOf.get(machine, input) ?? []))) {
    if ('needs' in line) out.lack(line.address, line.needs);
    else out.add(line);
  }
}

/** The breaks of each input's wires. */
export const breaksOf = factIndex<Machine, InputFaults, SolvedInput, readonly FaultRow[]>(
  'machine',
  faultsOf,
  ({ input }) => [input],
  (found) => found.flatMap(({ rows }) => rows.filter(({ fault }) => fault.kind === 'broken')),
  isSameList,
);

/** Whether any link ends at an input. */
export function isWired(nets: Nets, { at }: SolvedInput): boolean {
  return at.circuit.ends.slice(0, 1).some((end) => nets.isWired(terminalId(at.part.name, end.text)));
}

function deriveInput(machine: Machine, input: SolvedInput, worst: FaultRow | undefined): Line[] {
  const base = `circuits.${input.at.part.name}.${input.at.circuit.name}`;
  const lineOf = (address: string, sight: Sight, solution: Solution): Line => {
    if (sight.value === undefined) return { address, needs: sayTrouble(sight.trouble, input) };
    const { formula, inputs } = describeLoop(machine, solution, input.element);
    return { address, unit: unitOf(input), formula, inputs, si: clean(sight.value, input), source: SOURCE };
  };
  const rest = lineOf(`${base}.rest`, input.rest, input.solution);
  const [operation] = input.operations;
  // While everything is on, a reset changes nothing: the contacts that it goes through are open.
  if (!operation && input.at.circuit.does?.word === 'reset') return [rest];
  if (!operation)
    return [
      rest,
      { address: `${base}.operated`, needs: say`something wired to it that changes what it sees` },
    ];
  const operated = lineOf(`${base}.operated`, operation.sight, operation.solution);
  const margin =
    'needs' in rest || 'needs' in operated
      ? undefined
      : marginOf(base, input, derive(rest), derive(operated));
  return [rest, operated, margin, worst && brokenOf(machine, base, worst)].filter(
    (line) => line !== undefined,
  );
}

function unitOf(input: SolvedInput): 'V' | 'mA' {
  return unitIn(input) === 'A' ? 'mA' : 'V';
}

function unitIn({ solution, element }: SolvedInput): 'V' | 'A' {
  return solution.circuit.board.elements[element]?.reads?.unit ?? 'V';
}

function clean(value: number, input: SolvedInput): number {
  return Math.abs(value) < NOTHING[unitIn(input)] ? 0 : value;
}

/** The smaller of the two distances to a threshold, each in the state in which it counts. */
function marginOf(base: string, input: SolvedInput, rest: Derived, operated: Derived): Recipe | undefined {
  const [operation] = input.operations;
  const [atRest, whenOperated] = [input.rest.margin, operation?.sight.margin];
  if (!operation || atRest === undefined || whenOperated === undefined) return undefined;
  const [value, sight, state] =
    atRest <= whenOperated
      ? ([rest, input.rest, later`at rest`] as const)
      : ([operated, operation.sight, 'operated'] as const);
  const threshold = thresholdInput(input, sight);
  const seen = inputFrom(value, say`seen ${state}`);
  const isAbove = threshold.wantsMore;
  return {
    address: `${base}.margin`,
    unit: unitOf(input),
    formula: isAbove
      ? `{${seen.name}} − {${threshold.input.name}}`
      : `{${threshold.input.name}} − {${seen.name}}`,
    inputs: isAbove ? [seen, threshold.input] : [threshold.input, seen],
    si: (isAbove ? 1 : -1) * (value.si - threshold.input.value),
    source: say`the smaller distance to a threshold of the two states; below zero between the thresholds`,
    limit: state,
  };
}

/** The threshold that a level is held against: of its own side, or the nearer one between them. */
function thresholdInput(
  { at, element, solution }: SolvedInput,
  { level, value = 0 }: Sight,
): { input: Input; wantsMore: boolean } {
  const reads = solution.circuit.board.elements[element]?.reads;
  const { on = 0, off = 0 } = reads ?? {};
  const isOn = level === 'on' || (level === 'uncertain' && Math.abs(value - on) <= Math.abs(value - off));
  const key = THRESHOLDS[at.circuit.kind]?.[isOn ? 0 : 1];
  const given =
    key && at.part.sheet ? figureInput(key, at.circuit.figures, key, at.part.sheet.file) : undefined;
  const si = isOn ? on : off;
  const shown = reads?.unit === 'A' ? showIn(si * 1e3, 'mA') : showIn(si, 'V');
  const input = given ?? constantInput(isOn ? later`needed to be on` : later`allowed to be off`, si, shown);
  return { input, wantsMore: isOn !== (reads?.below ?? false) };
}

/** What it sees at rest with the wire broken whose break is seen last. */
function brokenOf(machine: Machine, base: string, { input, fault, rest }: FaultRow): Recipe | undefined {
  if (fault.kind !== 'broken' || rest.value === undefined) return undefined;
  const link: Input = {
    name: say`wire ${nameLink(machine, fault.link)}`,
    value: 0,
    shown: say`${fault.link.from.part}.${fault.link.from.terminal} to ${fault.link.to.part}.${fault.link.to.terminal} broken`,
    file: machine.file,
    at: fault.link.at,
  };
  return {
    address: `${base}.broken-wire`,
    unit: unitOf(input),
    formula: `{${link.name}}`,
    inputs: [link],
    si: clean(rest.value, input),
    source: SOURCE,
  };
}

function sayTrouble(trouble: Trouble | undefined, { at, solution, element }: SolvedInput): string {
  switch (trouble) {
    case 'lacks-figures': {
      const lacks = solution.circuit.board.elements[element]?.lacks ?? [];
      return say`${lacks.join(say` and `)} on the sheet of ${at.part.name}`;
    }
    case 'contradiction':
      return say`a circuit in which no supply is shorted`;
    case 'floating':
      return say`a way for the current to return`;
    case 'mains':
      return say`a circuit apart from the mains, which are not solved`;
    case 'too-large':
      return say`a circuit of fewer nodes`;
    default:
      return say`a circuit with figures that are possible`;
  }
}
