import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { isAnythingOpen } from '../../wiring/open-ends.ts';
import { weldableContacts } from '../stop-contacts.ts';
import { stopDevices } from '../stop-devices.ts';

export const rule: Rule = {
  code: 'safety/stop-not-direct-opening',
  severity: 'warning',
  title: later`Nothing forces an emergency stop contact open when it has welded`,
  find: findWeldable,
  say: (data) =>
    say`The sheet of ${word(data, 'part')} does not say that ${joinWords(wordList(data, 'contacts'), 'and')} is forced open by the button itself (direct opening, IEC 60947-5-1 annex K): a welded contact stays closed when the button is pressed. Use a device made for emergency stops, or write direct-opening: yes where its datasheet says so.`,
};

function* findWeldable(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  for (const { part, cuts, tells } of stopDevices(analysis)) {
    // Round an open circuit a switch that is no stop may seem to be one.
    const isTraced = part.sheet?.partClass === 'emergency-stop' || !isAnythingOpen(analysis);
    const contacts = isTraced && cuts.length + tells.length > 0 ? weldableContacts(analysis, part) : [];
    if (contacts.length === 0) continue;
    yield {
      at: part.sheetName ?? part.key,
      data: { part: part.name, contacts: contacts.map(({ circuit }) => circuit.name) },
      related: contacts.map(({ circuit }) => ({
        ...elsewhere(analysis, part.sheet?.file),
        at: circuit.key,
        note: say`the contact ${circuit.name}`,
      })),
    };
  }
}
