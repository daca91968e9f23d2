import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix } from '../../../problem.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { swapTerminals } from '../../common/link-ends.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'polarity/opto-reversed',
  severity: 'error',
  title: later`An isolated input is wired the wrong way round`,
  find: findReversed,
  say: (data) =>
    say`${nameInput(data)} can never turn on: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')}. Its plus ${word(data, 'anode')} is wired to the lower voltage and its minus ${word(data, 'cathode')} to the higher, so the lamp inside blocks. Exchange the two wires.`,
};

function* findReversed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'opto-reversed')) {
    const { part, circuit } = diagnosis.input.at;
    const [anode = '', cathode = ''] = circuit.ends.map((end) => terminalId(part.name, end.text));
    yield findingFor(analysis, diagnosis, {
      data: { anode, cathode },
      propose: () => exchange(analysis, diagnosis.input, anode, cathode),
    });
  }
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
