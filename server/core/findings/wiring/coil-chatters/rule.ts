import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { type Chatter, chatterOf } from '../../../circuits/solve/chatter.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { inputsOf } from '../../../circuits/solve/solved.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import { mapEach } from '../../../reuse/map-each.ts';
import { canBeJudged } from '../../common/judgeable.ts';
import { elsewhere, endsAt } from '../../common/link-ends.ts';
import { placeOf, presentAt, showSight } from '../../common/sights.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'wiring/coil-chatters',
  severity: 'error',
  title: later`A relay takes its own coil off its supply`,
  find: findChattering,
  say: (data) => {
    const ends = joinWords(wordList(data, 'ends'), 'and');
    return say`${word(data, 'coil')} gets ${word(data, 'released')} over its own contact between ${ends}, and ${word(data, 'pulledIn')} as soon as it has pulled in: it lets go, pulls in again, and chatters until its contacts burn or weld. Feed the coil past that contact; a relay that is to hold itself in does so over a contact that is open at rest.`;
  },
};

const chatters = mapEach((input: SolvedInput) => {
  const chatter = chatterOf(input);
  return chatter && { input, chatter };
});

function* findChattering(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || !canBeJudged(analysis)) return;
  for (const found of chatters(inputsOf(analysis.machine)))
    if (found && canBeJudged(analysis, found.input)) yield describe(analysis, found.input, found.chatter);
}

function describe(
  analysis: MachineAnalysis,
  input: SolvedInput,
  { contact, released, pulledIn }: Chatter,
): Found {
  const { part, circuit } = presentAt(analysis, contact.at);
  const wires = circuit.ends.flatMap(({ text }) => endsAt(analysis, terminalId(part.name, text)));
  const reads = input.solution.circuit.board.elements[input.element]?.reads;
  return {
    at: wires[0]?.at ?? placeOf(analysis, input),
    data: {
      coil: part.name,
      ends: circuit.ends.map(({ text }) => terminalId(part.name, text)),
      released: showSight(released, reads),
      pulledIn: showSight(pulledIn, reads),
    },
    related: [
      { at: placeOf(analysis, input), note: say`the coil of ${part.name}` },
      {
        ...elsewhere(analysis, part.sheet?.file),
        at: circuit.key,
        note: say`${circuit.name} of ${part.name}`,
      },
    ],
  };
}
