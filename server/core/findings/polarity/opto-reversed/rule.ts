import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix } from '../../../problem.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { swapTerminals } from '../../common/link-ends.ts';
import { otherTerminal, stuckByFeed } from '../../common/shared-feed.ts';
import { figure, joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { sharedSide } from '../shared-side.ts';

export const rule: Rule = {
  code: 'polarity/opto-reversed',
  severity: 'error',
  title: later`An isolated input is wired the wrong way round`,
  find: findReversed,
  say: (data) => {
    const others = wordList(data, 'others');
    if (others.length > 0)
      return say`${nameInput(data)} can never turn on, and neither can ${joinWords(others)}: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')}. The ${figure(data, 'count')} inputs share ${word(data, 'common')}, which is wired to the ${data.pole === 'plus' ? 'lower' : 'higher'} voltage, so the lamps inside block. ${data.isEach === true ? say`What drives them switches to the other side, as it should: exchange the two wires of each input.` : say`Wire ${word(data, 'common')} to the other side of the supply.`}`;
    return say`${nameInput(data)} can never turn on: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')}. Its plus ${word(data, 'anode')} is wired to the lower voltage and its minus ${word(data, 'cathode')} to the higher, so the lamp inside blocks. Exchange the two wires.`;
  },
};

function* findReversed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const group of stuckByFeed(analysis, 'opto-reversed')) {
    const [diagnosis] = group;
    const { input } = diagnosis;
    const { part, circuit } = input.at;
    const [anode = '', cathode = ''] = circuit.ends.map((end) => terminalId(part.name, end.text));
    const shared = sharedSide(analysis, group);
    const pole = otherTerminal(input) === anode ? 'plus' : 'minus';
    yield findingFor(
      analysis,
      diagnosis,
      shared
        ? { ...shared, data: { ...shared.data, pole, isEach: switchesAway(input, pole) } }
        : { data: { anode, cathode }, propose: () => exchange(analysis, input, anode, cathode) },
    );
  }
}

/** Whether the output on an input switches to the other side than the one at which a pole of it is. */
function switchesAway({ solution: { circuit } }: SolvedInput, pole: 'plus' | 'minus'): boolean {
  const away = pole === 'minus' ? 'sink-out' : 'source-out';
  return circuit.parts.some(({ element }) => circuit.board.elements[element]?.at.circuit.kind === away);
}

/** All wires at the two terminals, or only those from other parts, where bridges on the part are right as they are. */
function exchange(analysis: MachineAnalysis, { at }: SolvedInput, a: string, b: string): Fix[] {
  const isBridge = (end: object) =>
    analysis.machine.links.some(
      ({ from, to }) =>
        (from === end || to === end) && from.part === at.part.name && to.part === at.part.name,
    );
  const title = say`Exchange the wires at ${a} and ${b}`;
  return [swapTerminals(analysis, a, b), swapTerminals(analysis, a, b, (end) => !isBridge(end))].flatMap(
    (edits, index): Fix[] =>
      edits ? [{ title: index === 0 ? title : say`${title}, but not the bridges`, edits, safe: false }] : [],
  );
}
