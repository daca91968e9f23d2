import type { MachineAnalysis } from '../../analysis.ts';
import type { Board } from '../../circuits/solve/board.ts';
import type { SolvedInput, SolvedMachine } from '../../circuits/solve/inputs.ts';
import type { Level, Sight } from '../../circuits/solve/reading.ts';
import { circuitsOf, gravest } from '../../circuits/solve/solved.ts';
import type { Solution } from '../../circuits/solve/states.ts';
import { type Passage, type Stop, solveBreak, traceWay, voltsAt } from '../../circuits/solve/way.ts';
import { later, said, say } from '../../language/say.ts';
import { nameLink } from '../../model/link-number.ts';
import type { Machine } from '../../model/resolve.ts';
import { sayUse } from '../../model/role.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { colourOf } from '../../model/wire-text.ts';
import type { Link } from '../../model/wiring.ts';
import { readColour } from '../../units/colours.ts';
import { formatBest } from '../../units/index.ts';
import { nameState, sayFigures } from '../../values/circuit-loop.ts';
import { breaksOf, isWired } from '../../values/circuits.ts';
import { SEEN } from '../inputs.ts';
import { terminalPlaceId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { drawLoop } from './loop-drawing.ts';

/** One state of a loop, with what its terminals are at and what its passages do then. */
export interface LoopState {
  readonly id: 'rest' | 'operated' | 'broken';
  readonly title: string;
  /** What is operated or broken; empty at rest. */
  readonly who: string;
  /** By stop: volts; undefined where a terminal hangs loose. */
  readonly volts: readonly (number | undefined)[];
  /** By stop: what the passage to it does in this state, e.g. `closed`, to be said; empty where nothing changes. */
  readonly does: readonly string[];
  /** By stop: whether the passage to it carries the current. */
  readonly passes: readonly boolean[];
  readonly verdict: string;
}

/** The way of a signal as it is drawn. */
export interface Loop {
  readonly stops: readonly LoopStop[];
  readonly states: readonly LoopState[];
}

export interface LoopStop {
  readonly terminal: string;
  readonly by: Passage['kind'] | undefined;
  /** What the passage is: a wire's label and colour, a contact's name. */
  readonly name: string;
  readonly shades: readonly string[];
  readonly isInput: boolean;
  readonly isContact: boolean;
  /** Whether the input is called by this terminal. */
  readonly isOwn: boolean;
}

const kept = new WeakMap<Board, SummaryItem[]>();

/** The way of the current of every wired input that has one, with the voltages solved at rest, operated and with a wire broken. */
export function loopItems({ machine, nets }: MachineAnalysis): SummaryItem[] {
  const { solved } = circuitsOf(machine);
  let items = kept.get(solved.board);
  if (!items) {
    items = solved.inputs
      .filter((input) => input.at.circuit.kind !== 'coil' && isWired(nets, input))
      .flatMap((input) => loopItem(machine, solved, input, gravest(breaksOf.get(machine, input) ?? [])));
    kept.set(solved.board, items);
  }
  return items;
}

type Worst = ReturnType<typeof gravest>;

function loopItem(machine: Machine, solved: SolvedMachine, input: SolvedInput, worst: Worst): SummaryItem[] {
  const stops = traceWay(solved.board, input);
  if (stops.length < 3) return [];
  const { part, circuit } = input.at;
  const terminal = circuit.ends[0]?.text ?? '';
  const does = sayUse(circuit.name, circuit.figures.text('does')?.value);
  const states = statesOf(machine, solved, input, stops, worst);
  const loop: Loop = { stops: stops.map((stop) => describeStop(machine, solved.board, input, stop)), states };
  const says = states.map(
    ({ title, who, verdict }) => `${title}${who === '' ? '' : ` (${who})`}: ${verdict}.`,
  );
  const title = `${part.name}.${terminal}, ${does}`;
  const picture = {
    title,
    titleId: terminalPlaceId(part.name, terminal),
    svg: drawLoop(loop, say`Way of the current of ${title}. ${says.join(' ')}`),
    says,
    states: states.map(({ id, title: name }) => ({ id, title: name })),
  };
  return [{ id: `loop:${part.name}.${terminal}`, section: 'inputs', kind: 'picture', picture }];
}

function describeStop(machine: Machine, board: Board, input: SolvedInput, { terminal, by }: Stop): LoopStop {
  const name = board.conductors.terminals[terminal] ?? '';
  const { part, circuit } = input.at;
  const isOwn = name === terminalId(part.name, circuit.ends[0]?.text ?? '');
  const common = { terminal: name, by: by?.kind, shades: [], isInput: false, isContact: false, isOwn };
  switch (by?.kind) {
    case 'wire': {
      const colour = colourOf(by.link);
      const shades = colour === undefined ? [] : (readColour(colour).value?.shades ?? []);
      return { ...common, name: sayWire(machine, by.link, colour), shades };
    }
    case 'inside':
      return { ...common, name: by.at.circuit.kind === 'fuse' ? say`fuse` : say`joined inside` };
    case 'element': {
      const element = board.elements[by.element];
      const isInput = by.element === input.element;
      const figures = element && element.mover === undefined ? `, ${sayFigures(element)}` : '';
      const called = (element?.at.circuit.name ?? '').replaceAll('-', ' ');
      return { ...common, name: `${called}${figures}`, isInput, isContact: element?.mover !== undefined };
    }
    default:
      return { ...common, name: '' };
  }
}

function sayWire(machine: Machine, link: Link, colour: string | undefined): string {
  return say`wire ${[nameLink(machine, link), colour].filter((word) => word !== undefined).join(' ')}`;
}

function statesOf(
  machine: Machine,
  solved: SolvedMachine,
  input: SolvedInput,
  stops: readonly Stop[],
  worst: Worst,
): LoopState[] {
  const state = (
    id: LoopState['id'],
    title: string,
    who: string,
    solution: Solution,
    verdict: string,
    broken?: Link,
  ): LoopState => ({
    id,
    title,
    who,
    volts: stops.map(({ terminal }) => voltsAt(solved.board, solution, terminal)),
    does: stops.map(({ by }) => namePassage(solved.board, solution, by, broken)),
    passes: stops.map(({ by }) => !(by?.kind === 'wire' && by.link === broken)),
    verdict,
  });
  const [operation] = input.operations;
  const link = worst?.fault.kind === 'broken' ? worst.fault.link : undefined;
  const broken = link && solveBreak(solved, link);
  return [
    state('rest', say`At rest`, '', input.solution, saySight(input, input.rest, input.acts)),
    ...(operation
      ? [
          state(
            'operated',
            say`Operated`,
            operation.actor.name,
            operation.solution,
            saySight(input, operation.sight, operation.acts),
          ),
        ]
      : []),
    ...(link && broken && worst
      ? [
          state(
            'broken',
            say`Wire broken`,
            nameLink(machine, link),
            broken,
            say`${saySight(input, worst.rest, undefined)}; the break is ${said(SEEN[worst.verdict])}`,
            link,
          ),
        ]
      : []),
  ];
}

const LEVELS: Readonly<Record<Level, string>> = {
  on: later`on`,
  off: later`off`,
  uncertain: later`between the thresholds`,
  unknown: later`level not known`,
};

/** What an input makes of what it sees: its level, or the voltage where it measures and has no levels. */
function saySight({ at }: SolvedInput, { level, value }: Sight, acts: boolean | undefined): string {
  const isMeasured = at.circuit.kind === 'analog-in' && value !== undefined;
  const word = isMeasured ? formatBest(value, 'voltage', 3) : said(LEVELS[level]);
  return acts === true ? say`${word}, the function acts` : word;
}

/** What a passage does in a state, to be said: contacts and outputs change, wires may be broken. */
function namePassage(
  board: Board,
  { circuit, states }: Solution,
  by: Passage | undefined,
  broken: Link | undefined,
): string {
  if (by?.kind === 'wire') return by.link === broken ? later`broken` : '';
  if (by?.kind !== 'element') return '';
  const element = board.elements[by.element];
  const index = circuit.partOf.get(by.element);
  return element?.mover === undefined || index === undefined
    ? ''
    : nameState(element, states[index] ?? 'rest');
}
