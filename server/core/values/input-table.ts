import type { Nets } from '../circuits/nets.ts';
import type { SolvedInput } from '../circuits/solve/inputs.ts';
import type { Level, Sight, Trouble } from '../circuits/solve/reading.ts';
import { gravest, inputsOf } from '../circuits/solve/solved.ts';
import type { Verdict } from '../circuits/solve/verdict.ts';
import { later, said } from '../language/say.ts';
import { nameLink } from '../model/link-number.ts';
import type { Machine } from '../model/resolve.ts';
import { breaksOf, isWired } from './circuits.ts';
import { showIn } from './derived.ts';

/** Why there is no figure, in the words that stand in its place. */
const TROUBLES: Readonly<Record<Trouble, string>> = {
  'lacks-figures': later`figures missing`,
  floating: later`floating`,
  mains: later`mains`,
  contradiction: later`contradiction`,
  'too-large': later`too large`,
  impossible: later`impossible figure`,
  unsettled: later`no solution`,
};

/** What one input sees in one state, ready to be shown. */
export interface TableCell {
  readonly shown: string;
  readonly level: Level;
  /** Whether the function acts then; undefined where nobody can tell. */
  readonly acts: boolean | undefined;
}

/** One input of the machine in all its states. */
export interface InputRow {
  readonly part: string;
  readonly circuit: string;
  /** The terminal that carries the signal. */
  readonly terminal: string;
  /** What the part uses it for, in the words of its sheet; empty where it has no purpose. */
  readonly does: string;
  readonly inUse: boolean;
  /** What acts on it; undefined while nothing does. */
  readonly actor: string | undefined;
  readonly rest: TableCell;
  readonly operated: TableCell | undefined;
  /** With the wire broken whose break is seen last. */
  readonly broken: (TableCell & { readonly wire: string; readonly seen: Verdict }) | undefined;
}

/** The truth table of all inputs that are wired or in use by a setting, in the order of the machine. Coils are left out. */
export function inputTable(machine: Machine, nets: Nets): InputRow[] {
  return inputsOf(machine)
    .filter((input) => input.at.circuit.kind !== 'coil' && isWired(nets, input))
    .map((input): InputRow => {
      const { at, sense, acts, operations } = input;
      const [operation] = operations;
      const worst = gravest(breaksOf.get(machine, input) ?? []);
      return {
        part: at.part.name,
        circuit: at.circuit.name,
        terminal: at.circuit.ends[0]?.text ?? '',
        does: at.circuit.figures.text('does')?.value ?? '',
        inUse: sense.inUse,
        actor: operation?.actor.name,
        rest: cellOf(input, input.rest, acts),
        operated: operation && cellOf(input, operation.sight, operation.acts),
        broken:
          worst?.fault.kind === 'broken'
            ? {
                ...levelAt(input, worst.rest),
                wire: nameLink(machine, worst.fault.link),
                seen: worst.verdict,
              }
            : undefined,
      };
    });
}

/** What an input sees in a state, ready to be shown, and whether its function acts then. */
function levelAt(input: SolvedInput, sight: Sight): TableCell {
  return cellOf(input, sight, actsAs(input, sight.level));
}

function actsAs({ sense }: SolvedInput, level: Level): boolean | undefined {
  if (level === 'on') return sense.actsWhenOn;
  return level === 'off' ? !sense.actsWhenOn : undefined;
}

function cellOf(
  { solution, element }: SolvedInput,
  { value, level, trouble }: Sight,
  acts: boolean | undefined,
): TableCell {
  const isCurrent = solution.circuit.board.elements[element]?.reads?.unit === 'A';
  if (value === undefined)
    return { shown: trouble === undefined ? '' : said(TROUBLES[trouble]), level, acts };
  const rounded = Number((isCurrent ? value * 1e3 : value).toFixed(isCurrent ? 2 : 1));
  return { shown: showIn(rounded === 0 ? 0 : rounded, isCurrent ? 'mA' : 'V'), level, acts };
}
