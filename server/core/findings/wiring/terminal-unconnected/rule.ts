import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { addLink } from '../add-link.ts';
import { findCandidate } from '../candidate.ts';
import type { Unconnected } from '../needed.ts';
import { openEndsOf } from '../open-ends.ts';

export const rule: Rule = {
  code: 'wiring/terminal-unconnected',
  severity: 'error',
  title: later`A terminal that is needed goes nowhere`,
  find: findLacks,
  say: (data) => {
    const terminals = joinWords(
      wordList(data, 'missing').map((terminal) => `${word(data, 'part')}.${terminal}`),
      'and',
    );
    const go = wordList(data, 'missing').length > 1 ? 'go' : 'goes';
    const candidate = word(data, 'candidate');
    const advice =
      candidate === ''
        ? say`Join ${wordList(data, 'missing').length > 1 ? 'them' : 'it'} to ${word(data, 'to')}.`
        : say`Join ${wordList(data, 'missing').length === 1 ? 'it' : data.apart === true ? 'them' : 'one of them'} to ${candidate}.`;
    return say`${terminals} ${data.why === 'return' ? 'does not lead to the supply of the other end' : data.why === 'pole' ? 'comes to the same side of the mains as the other end' : `${go} nowhere`}, so ${word(data, 'effect')}. ${advice}`;
  },
};

/** What does not work then, and what to join the terminal to. */
const WORDS: Readonly<Record<Unconnected['why'], (lack: Unconnected) => { effect: string; to: string }>> = {
  supply: ({ part }) => ({
    effect: say`no current can flow through ${part.name}, which stays off`,
    to: say`a supply that fits`,
  }),
  return: ({ part }) => ({
    effect: say`no current can flow through ${part.name}, which stays off`,
    to: say`the supply that its other end is joined to`,
  }),
  mains: ({ part }) => ({
    effect: say`${part.name} gets no mains`,
    to: say`the mains, behind a fuse or breaker; leave that to a licensed person`,
  }),
  pole: ({ part }) => ({
    effect: say`${part.name} gets no mains`,
    to: say`the other side of the mains, behind a fuse or breaker; leave that to a licensed person`,
  }),
  half: ({ circuit }) => ({
    effect: say`the input ${circuit.name} has no closed circuit and never turns on`,
    to: say`the other side of the signal`,
  }),
  signal: ({ circuit }) => ({
    effect: say`the ${circuit.does?.word} signal has no closed circuit and the axis does not move`,
    to: say`the controller's output or common for it`,
  }),
  motor: ({ part }) => ({
    effect: say`no current can flow through that winding of ${part.name}, which does not turn as it should`,
    to: say`the output whose other wires go to that winding`,
  }),
  sensor: ({ part }) => ({
    effect: say`${part.name} has no supply and its output never switches`,
    to: say`the supply for sensors`,
  }),
};

function* findLacks(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const lacks = openEndsOf(analysis).unconnected;
  const commons = missingCommons(analysis, lacks);
  const wireOf = (lack: Unconnected) => commons.get(lack) ?? netOf(analysis, lack);
  for (const [lack, ...others] of groupBy(lacks, wireOf).values()) {
    if (lack) yield describe(analysis, lack, others, commons.has(lack));
  }
}

/**
 * Isolated inputs of one part that lack the same end while their other ends go different ways: what they lack is the
 * common that they would share. By input, a word for that common.
 */
function missingCommons(
  { nets }: MachineAnalysis,
  lacks: readonly Unconnected[],
): ReadonlyMap<Unconnected, string> {
  const optos = lacks.filter(({ circuit, missing }) => circuit.kind === 'opto-in' && missing.length === 1);
  const commons = new Map<Unconnected, string>();
  for (const [name, same] of groupBy(optos, ({ part, missing }) => `${part.name} ${missing[0]}`)) {
    const signals = same.map(({ part, circuit, missing }) =>
      nets.netOf(terminalId(part.name, circuit.ends[missing[0] === 0 ? 1 : 0]?.text ?? '')),
    );
    if (new Set(signals).size === same.length) for (const lack of same) commons.set(lack, name);
  }
  return commons;
}

/** Circuits of a part whose missing ends are joined to one another lack the same wire. */
function netOf({ nets }: MachineAnalysis, lack: Unconnected): number | Unconnected {
  const [index] = lack.missing;
  if (index === undefined || lack.missing.length > 1) return lack;
  return nets.netOf(terminalId(lack.part.name, lack.circuit.ends[index]?.text ?? ''));
}

/** @param apart whether the missing ends are not joined to one another, so that each needs a wire */
function describe(
  analysis: MachineAnalysis,
  lack: Unconnected,
  others: readonly Unconnected[],
  apart: boolean,
): Found {
  const { part, circuit } = lack;
  const missing = [lack, ...others].flatMap((each) =>
    each.missing.map((index) => each.circuit.ends[index]?.text ?? ''),
  );
  const candidate = findCandidate(analysis, lack);
  const fix =
    candidate === undefined ? undefined : addLink(analysis, candidate, `${part.name}.${missing[0]}`);
  return {
    at: part.key,
    data: {
      part: part.name,
      circuit: circuit.name,
      missing: [...new Set(missing)],
      why: lack.why,
      apart,
      ...WORDS[lack.why](lack),
      ...(candidate !== undefined && { candidate }),
    },
    related: [
      {
        ...elsewhere(analysis, part.sheet?.file),
        at: circuit.key,
        note: say`the circuit ${circuit.name} that needs it`,
      },
    ],
    fixes: fix ? [fix] : [],
  };
}
