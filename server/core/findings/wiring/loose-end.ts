import type { MachineAnalysis } from '../../analysis.ts';
import type { OpenCircuit, OpenCircuits } from '../../circuits/loops/open-circuits.ts';
import { terminalId } from '../../model/terminal-id.ts';

/** Where an open circuit ends. */
export interface LooseEnd {
  /** How a message calls it. */
  readonly name: string;
  /**
   * `free`: a terminal without a wire; `bar`: terminals that are joined inside a part of their own; `linked`: the wire
   * that is there leads nowhere else; `common`: nothing is loose, but the two sides hang on supplies without a common.
   */
  readonly why: 'free' | 'bar' | 'linked' | 'common';
  /** The terminal without a wire. */
  readonly free: string | undefined;
  /** Terminals of it where wires end, those of the open circuits first. */
  readonly terminals: readonly string[];
}

/** Finds where a wire is likeliest to be missing. */
export function findLooseEnd(analysis: MachineAnalysis, circuits: OpenCircuits, open: OpenCircuit): LooseEnd {
  const ends = endsOf(open);
  const isEnd = (node: number) => open.legs.filter(({ a, b }) => a === node || b === node).length === 1;
  const freeOn = (node: number) => {
    const there = circuits.terminalsOn(node).filter((terminal) => !analysis.nets.isWired(terminal));
    return (
      there.find((terminal) => ends.has(terminal)) ?? there.find((terminal) => isPassedOn(analysis, terminal))
    );
  };
  const [first] = open.loose;
  if (first === undefined || (open.islands.size > 1 && !open.loose.some(isEnd))) {
    const names = namesOf(open.legs.find(({ consumes }) => consumes) ?? open.legs[0]);
    return { name: names[0] ?? '', why: 'common', free: undefined, terminals: names };
  }
  const node = isEnd(first) ? first : (open.loose.find((each) => freeOn(each) !== undefined) ?? first);
  const free = freeOn(node);
  const there = circuits.terminalsOn(node);
  const others = there.filter((terminal) => !ends.has(terminal));
  const terminals = [...there.filter((terminal) => ends.has(terminal)), ...others];
  // Where every terminal is wired, a breaker or bar on the way says more than what hangs behind it.
  const onTheWay = others.find((terminal) => isPassedOn(analysis, terminal)) ?? terminals[0] ?? '';
  if (free === undefined) return { name: onTheWay, why: 'linked', free, terminals: [onTheWay, ...terminals] };
  const isBar = !ends.has(free) && countOn(there, free) > 2;
  return { name: isBar ? partOf(free) : free, why: isBar ? 'bar' : 'free', free, terminals };
}

/** All terminals of the open circuits. */
export function endsOf({ legs }: OpenCircuit): ReadonlySet<string> {
  return new Set(legs.flatMap(namesOf));
}

function namesOf(leg: OpenCircuit['legs'][number] | undefined): string[] {
  const at = leg?.at;
  return at ? at.circuit.ends.map((end) => terminalId(at.part.name, end.text)) : [];
}

/** Whether a part only passes on what is joined to it: terminal strips, bars, fuses. */
export function isPassedOn({ machine }: MachineAnalysis, terminal: string): boolean {
  const circuits = [...(machine.parts.get(partOf(terminal))?.sheet?.circuits.values() ?? [])];
  return (
    circuits.length > 0 &&
    circuits.every(({ kind }) => kind === 'joined' || kind === 'fuse' || kind === 'earth')
  );
}

/** How many terminals of the same part are on a node. */
function countOn(terminals: readonly string[], terminal: string): number {
  const part = partOf(terminal);
  return terminals.filter((each) => partOf(each) === part).length;
}

function partOf(terminal: string): string {
  return terminal.slice(0, terminal.indexOf('.'));
}
