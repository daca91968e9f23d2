import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { inputsOf } from '../../../circuits/solve/solved.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Related } from '../../../problem.ts';
import type { Span } from '../../../syntax/node.ts';
import { withCures } from '../../common/cure.ts';
import { partsInDoubt } from '../../common/held-back.ts';
import { nameInput, sayLevels } from '../../common/input-finding.ts';
import { elsewhere, endsAt } from '../../common/link-ends.ts';
import { sightData } from '../../common/sights.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { addLink } from '../add-link.ts';
import { type Closer, findClosers } from '../closers.ts';
import { findLooseEnd, type LooseEnd } from '../loose-end.ts';
import { type NoReturn, openEndsOf } from '../open-ends.ts';

export const rule: Rule = {
  code: 'wiring/no-return',
  severity: 'error',
  title: later`A circuit has no way back for its current`,
  find: findOpen,
  say: (data) => {
    const input = data.input === undefined ? '' : say`${nameInput(data)}, which sees ${sayLevels(data)}`;
    const needs = word(data, 'turnsOn') === '' ? '' : say` and needs ${word(data, 'turnsOn')} to turn on`;
    const stuck = wordList(data, 'through').slice(0, input === '' ? MOST_NAMED : MOST_NAMED - 1);
    const more = wordList(data, 'through').length - stuck.length;
    const through = more > 0 ? [...stuck, say`${more} more`] : stuck;
    const effect = say`no current can flow through ${joinWords(input === '' ? through : [...through, `${input}${needs}`], 'and')}`;
    switch (data.why) {
      case 'awaited':
        return say`${word(data, 'open')} goes nowhere, and nothing is wired to ${word(data, 'awaited')}, which is set to be in use and never changes. Join it to ${word(data, 'awaited').split(' ')[0] ?? ''}.`;
      case 'common':
        return say`${word(data, 'open')} has no way back: its two sides are fed by supplies that have nothing in common, so ${effect}. Join ${word(data, 'minus') === '' ? 'the minus of both supplies' : word(data, 'minus')}, unless they are kept apart on purpose.`;
      case 'bar':
        return say`${word(data, 'open')} leads to no supply and no ground, so ${effect}. Join it to the side of the supply that its circuits need.`;
      case 'linked':
        return say`What is joined to ${word(data, 'open')} leads nowhere else, so ${effect}. Lead it on to the other side of the supply.`;
      default:
        return say`${word(data, 'open')} goes nowhere, so ${effect}. ${data.isMains === true ? 'Join it to the mains, behind a fuse or breaker; leave that to a licensed person.' : 'Lead it to the other side of the supply, or whatever else closes the circuit.'}`;
    }
  },
};

/** Nobody reads twenty names. */
const MOST_NAMED = 5;

function* findOpen(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const each of openEndsOf(analysis).noReturns) {
    const found = describe(analysis, each);
    if (found) yield found;
  }
}

function describe(analysis: MachineAnalysis, { open, awaited }: NoReturn): Found | undefined {
  const loose = findLooseEnd(analysis, openEndsOf(analysis).circuits, open);
  // A link that cannot be read, or a misspelt end, is probably the way on from there.
  const doubtful = [...partsInDoubt(analysis).keys()];
  if (doubtful.some((part) => loose.name === part || loose.name.startsWith(`${part}.`))) return undefined;
  const circuits = [...new Set(open.legs.flatMap(({ at }) => at ?? []))];
  const inputs = inputsIn(analysis, circuits);
  const [input] = inputs;
  const through = [
    ...new Set(
      circuits
        .filter(({ circuit }) => circuit.kind !== 'power-out')
        .filter(
          ({ part, circuit }) =>
            !inputs.some(({ at }) => at.part.name === part.name && at.circuit === circuit),
        )
        .map(({ part }) => part.name),
    ),
    ...inputs.slice(1).map(({ at }) => terminalId(at.part.name, at.circuit.ends[0]?.text ?? '')),
  ];
  const at = placeOf(analysis, loose, circuits);
  if (!at) return undefined;
  const found = {
    at,
    data: {
      why: awaited ? 'awaited' : loose.why,
      open: loose.name,
      isMains: open.legs.some(({ at: each }) => each === undefined || each.circuit.kind === 'mains-in'),
      through,
      ...(input && sightData(input)),
      ...(loose.why === 'common' && { minus: sayCommons(findClosers(analysis, open, loose, undefined)) }),
      ...(awaited && { awaited: sayInput(awaited) }),
    },
    related: circuits.slice(0, MOST_RELATED).map((each) => relatedTo(analysis, each)),
  };
  const names = circuits.map(({ part, circuit }) => terminalId(part.name, circuit.name));
  return withCures(
    analysis,
    found,
    () => findClosers(analysis, open, loose, awaited).map(([from, to]) => addLink(analysis, from, to)),
    (after) => {
      const { circuits: now, told } = openEndsOf(after);
      return names.every((name) => {
        const still = now.of.get(name);
        return !still || !told.has(still);
      });
    },
  );
}

const MOST_RELATED = 6;

/** The inputs and coils among some circuits, solved. */
function inputsIn({ machine }: MachineAnalysis, circuits: readonly CircuitAt[]): SolvedInput[] {
  const names = new Set(circuits.map(({ part, circuit }) => terminalId(part.name, circuit.name)));
  return inputsOf(machine).filter(
    ({ at, rest }) => rest.value !== undefined && names.has(terminalId(at.part.name, at.circuit.name)),
  );
}

/** The first two minus terminals that could be joined. */
function sayCommons([first]: readonly Closer[]): string {
  return first ? joinWords(first, 'and') : '';
}

function sayInput({ part, circuit }: CircuitAt): string {
  const does = circuit.figures.text('does')?.value;
  return `${part.name}.${circuit.ends[0]?.text ?? ''}${does === undefined ? '' : ` (${does})`}`;
}

/** Where the loose end is: its part while nothing is wired to it, else the first wire at it. */
function placeOf(
  analysis: MachineAnalysis,
  { terminals, free }: LooseEnd,
  circuits: readonly CircuitAt[],
): Span | undefined {
  const part = free === undefined ? undefined : analysis.machine.parts.get(free.slice(0, free.indexOf('.')));
  if (part) return part.key;
  const ends = [
    ...terminals,
    ...circuits.flatMap(({ part: { name }, circuit }) =>
      circuit.ends.map((end) => terminalId(name, end.text)),
    ),
  ];
  return ends.flatMap((terminal) => endsAt(analysis, terminal))[0]?.at;
}

function relatedTo(analysis: MachineAnalysis, { part, circuit }: CircuitAt): Related {
  return {
    ...elsewhere(analysis, part.sheet?.file),
    at: circuit.key,
    note: say`no current through ${circuit.name} of ${part.name}`,
  };
}
