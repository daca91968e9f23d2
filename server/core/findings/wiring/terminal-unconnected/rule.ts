import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { Fix } from '../../../problem.ts';
import { valueUnder } from '../../../syntax/node.ts';
import { addItem } from '../../common/edits.ts';
import { isAnyBlockBroken, partsInDoubt } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import { strayMains } from '../../power/stray-mains.ts';
import type { Found, Rule } from '../../rule.ts';
import { findCandidate } from '../candidate.ts';
import { findUnconnected, type Unconnected } from '../needed.ts';

export const rule: Rule = {
  code: 'wiring/terminal-unconnected',
  severity: 'error',
  title: 'A terminal that is needed goes nowhere',
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
        ? `Join ${wordList(data, 'missing').length > 1 ? 'them' : 'it'} to ${word(data, 'to')}.`
        : `Join it to ${candidate}.`;
    return `${terminals} ${data.why === 'return' ? 'does not lead to the supply of the other end' : `${go} nowhere`}, so ${word(data, 'effect')}. ${advice}`;
  },
};

/** What does not work then, and what to join the terminal to. */
const WORDS: Readonly<Record<Unconnected['why'], (lack: Unconnected) => { effect: string; to: string }>> = {
  supply: ({ part }) => ({
    effect: `no current can flow through ${part.name}, which stays off`,
    to: 'a supply that fits',
  }),
  return: ({ part }) => ({
    effect: `no current can flow through ${part.name}, which stays off`,
    to: 'the supply that its other end is joined to',
  }),
  mains: ({ part }) => ({
    effect: `${part.name} gets no mains`,
    to: 'the mains, behind a fuse or breaker; leave that to a licensed person',
  }),
  half: ({ circuit }) => ({
    effect: `the input ${circuit.name} has no closed circuit and never turns on`,
    to: 'the other side of the signal',
  }),
  signal: ({ circuit }) => ({
    effect: `the ${circuit.does?.word} signal has no closed circuit and the axis does not move`,
    to: "the controller's output or common for it",
  }),
  sensor: ({ part }) => ({
    effect: `${part.name} has no supply and its output never switches`,
    to: 'the supply for sensors',
  }),
};

function* findLacks(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const lacks = findUnconnected(analysis);
  const doubtful = lacks.length > 0 ? partsInDoubt(analysis) : new Set<string>();
  // What the mains come to lacks its supply because its wire is on the wrong terminal.
  const stray = new Set(strayMains(analysis).map(({ end }) => end.part));
  for (const lack of lacks) {
    if (doubtful.has(lack.part.name) || stray.has(lack.part)) continue;
    const { part, circuit } = lack;
    const missing = lack.missing.map((index) => circuit.ends[index]?.text ?? '');
    const candidate = findCandidate(analysis, lack);
    const sheet = part.sheet?.file === analysis.file ? {} : { file: part.sheet?.file ?? '' };
    yield {
      at: part.key,
      data: {
        part: part.name,
        circuit: circuit.name,
        missing,
        why: lack.why,
        ...WORDS[lack.why](lack),
        ...(candidate !== undefined && { candidate }),
      },
      related: [{ ...sheet, at: circuit.key, note: `the circuit ${circuit.name} that needs it` }],
      fixes: candidate === undefined ? [] : addLink(analysis, `${candidate} -> ${part.name}.${missing[0]}`),
    };
  }
}

function addLink({ tree }: MachineAnalysis, link: string): Fix[] {
  const edit = addItem(tree, valueUnder(tree.root, 'wiring'), link);
  return edit ? [{ title: `Add ${link}`, edits: [edit], safe: false }] : [];
}
