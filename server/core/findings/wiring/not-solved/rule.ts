import type { Analysis } from '../../../analysis.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { inputsOf } from '../../../circuits/solve/solved.ts';
import { MOST_UNKNOWNS } from '../../../circuits/solve/solver.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { isWired } from '../../../values/circuits.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { placeOf, signalTerminal } from '../../common/sights.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'wiring/not-solved',
  severity: 'warning',
  title: later`A circuit is too much to be solved`,
  find: findUnsolved,
  say: (data) => {
    const inputs = joinWords(wordList(data, 'inputs'), 'and');
    return data.why === 'unsettled'
      ? say`The circuit of ${inputs} comes to no rest: no state of its lamps and transistors agrees with itself. What ${inputs} sees is not known, and nothing about it is checked. Look for figures on the sheets that no part can have.`
      : say`The circuit of ${inputs} has ${word(data, 'nodes')} places whose voltage nothing fixes, and no more than ${word(data, 'most')} are solved: what ${inputs} sees is not known, and nothing about it is checked. Such a circuit is rarely meant: look for a link that joins what should be apart.`;
  },
};

/** What is too large may be so because many things were joined by one link; each circuit is told once. */
function* findUnsolved(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const inputs = inputsOf(analysis.machine);
  const unsolved = inputs.filter((input) => isUnsolved(input) && isWired(analysis.nets, input));
  for (const [group, there] of groupBy(unsolved, (input) => input.group)) {
    const [first] = there;
    if (!first) continue;
    yield {
      at: placeOf(analysis, first),
      data: {
        why: first.rest.trouble === 'unsettled' ? 'unsettled' : 'too-large',
        inputs: there.slice(0, MOST_NAMED).map(signalTerminal),
        nodes: String(group.nodes.length),
        most: String(MOST_UNKNOWNS),
      },
    };
  }
}

/** More names would say no more. */
const MOST_NAMED = 3;

function isUnsolved({ rest, group }: SolvedInput): boolean {
  // Small circuits of a machine that is too large as a whole are left out too; those are not at fault.
  return rest.trouble === 'unsettled' || (rest.trouble === 'too-large' && group.nodes.length > MOST_UNKNOWNS);
}
