import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { nearestName } from '../../../nearest.ts';
import { valueUnder } from '../../../syntax/node.ts';
import { renameAll } from '../../common/edits.ts';
import { ownSheets } from '../../common/own-sheets.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'name/unknown-circuit',
  severity: 'error',
  title: later`A setting acts on a circuit that does not exist`,
  find: findUnknown,
  say: (data) => {
    const nearest = word(data, 'nearest');
    const known = wordList(data, 'known');
    const advice =
      nearest === ''
        ? known.length > 0
          ? say`There are ${joinWords(known, 'and', 12)}.`
          : say`The sheet has no circuits yet.`
        : say`Did you mean ${nearest}?`;
    return say`${word(data, 'setting')} acts on the circuit ${word(data, 'name')}, which ${word(data, 'sheet')} does not have. ${advice}`;
  },
};

function* findUnknown(analysis: Analysis): Iterable<Found> {
  for (const { sheet, node, name: sheetName } of ownSheets(analysis)) {
    const section = valueUnder(node, 'circuits');
    // Every entry counts, also one whose kind cannot be told yet.
    const known = section?.kind === 'map' ? section.pairs.map(({ key }) => key.text) : [];
    for (const setting of sheet.settings.values()) {
      const circuit = setting.fields.text('circuit');
      if (!circuit || known.includes(circuit.value)) continue;
      const nearest = nearestName(circuit.value, known);
      const rename = nearest === undefined ? undefined : renameAll([circuit.at], circuit.value, nearest);
      const data = {
        setting: setting.name,
        name: circuit.value,
        sheet: sheetName,
        known,
        ...(nearest !== undefined && { nearest }),
      };
      yield { at: circuit.at, data, fixes: rename ? [rename] : [] };
    }
  }
}
