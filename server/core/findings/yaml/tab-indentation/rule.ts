import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Edit } from '../../../problem.ts';
import { replaceRange } from '../../common/edits.ts';
import { figure } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

const tabbed = fromProblems('yaml/tab-indentation');

export const rule: Rule = {
  code: 'yaml/tab-indentation',
  severity: 'error',
  title: later`Lines are indented with tabs`,
  find: (analysis) => findTabs(analysis),
  say: (data) => {
    const lines = figure(data, 'lines');
    const where = lines > 1 ? say`${lines} lines are` : say`This line is`;
    return say`${where} indented with tabs, which YAML does not allow: how deep a tab is depends on the editor. Use blanks, two for each level.`;
  },
};

function* findTabs(analysis: Analysis): Iterable<Found> {
  for (const found of tabbed(analysis)) {
    const fix = { title: say`Replace each tab by two blanks`, edits: replaceTabs(analysis), safe: false };
    yield { ...found, fixes: [fix] };
  }
}

function replaceTabs({ tree }: Analysis): Edit[] {
  return [...tree.text.matchAll(/^ *\t[ \t]*(?=\S)/gm)].flatMap((match) => {
    const edit = replaceRange(
      tree,
      match.index,
      match.index + match[0].length,
      match[0].replaceAll('\t', '  '),
    );
    return edit ?? [];
  });
}
