import { AXES } from '../../../../../schemas/roles.ts';
import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

const letters: readonly string[] = AXES;

export const rule: Rule = {
  code: 'name/unknown-axis',
  severity: 'error',
  title: later`An axis is named that the machine does not have`,
  find: findUnknown,
  say: (data) => {
    const known = wordList(data, 'known');
    return say`This machine has no axis ${word(data, 'name')}, so what was measured on it corrects nothing. ${known.length > 0 ? say`It has ${joinWords(known, 'and')}.` : 'It has no axes yet.'}`;
  },
};

function* findUnknown(analysis: Analysis): Iterable<Found> {
  // A section of axes that cannot be read, or whose name is misspelt, is one mistake.
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis) || mayBeMisspelt(analysis)) return;
  const known = [...analysis.machine.axes.keys()];
  for (const record of analysis.machine.fields.items('records')) {
    const axis = record.text('axis');
    // A letter that no axis can have is the shape's business.
    if (!axis || known.includes(axis.value) || !letters.includes(axis.value)) continue;
    const fixes = known
      .slice(0, 4)
      .map((name) => ({ title: say`Change to ${name}`, edits: [{ at: axis.at, text: name }], safe: false }));
    yield { at: axis.at, data: { name: axis.value, known }, fixes };
  }
}

/**
 * Without any axis, a key that the file does not know may well be the one that was meant to hold them; and an axis under
 * a letter that no axis can have may be the one that is named.
 */
function mayBeMisspelt({ machine, problems }: MachineAnalysis): boolean {
  if ([...machine.axes.keys()].some((name) => !letters.includes(name))) return true;
  return machine.axes.size === 0 && problems.some((problem) => problem.code === 'shape/unknown-key');
}
