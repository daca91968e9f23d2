import { later, say } from '../../../language/say.ts';
import { figure, word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/too-large',
  severity: 'error',
  title: later`This is more than is computed`,
  find: fromProblems('shape/too-large'),
  say: (data) =>
    word(data, 'what') === 'text'
      ? say`This text has ${figure(data, 'letters')} letters and ${figure(data, 'marks')} lines, commas and brackets; no more than ${figure(data, 'mostLetters')} and ${figure(data, 'mostMarks')} are read, so nothing of it is checked or shown. A machine of a hundred parts has about thirty thousand letters. Look for what was pasted many times over, and write the facts of a model into a sheet, which all its parts share.`
      : say`The machine has ${figure(data, 'parts')} parts and ${figure(data, 'links')} links, and no more than ${figure(data, 'most')} of both are computed: what is written is checked for its form, but no circuit, load or motion is known, and nothing about them is checked. Machines have some hundred. Look for what was pasted many times over, or write a definition for each machine.`,
};
