import { MOST_TESTS } from '../mutation/choose.ts';
import { isEquivalent } from '../mutation/equivalent.ts';
import { FOLDERS } from '../mutation/folders.ts';
import { type FolderResults, type Results, readResults } from '../mutation/results.ts';
import { intervalOf } from '../mutation/score.ts';
import { blocks, table } from '../support/markdown.ts';
import { figure, type Part, percent } from './part.ts';

/** Which small changes of the code the tests notice. */
export const mutation: Part<Results> = {
  name: 'mutation',
  title: 'Mutation score',
  about: `The code is changed a little at one place, a condition turned, a sum made a difference, a block emptied, and the tests
that come by that place are run (\`npm run mutation\`): some test should fail. Folders are tried by a seeded sample of all
changes, each as likely as any other; the interval holds the score of all with 95 % certainty. Changes of texts are not
made: most are words for people, or names that the compiler would refuse. A change is tried with tests that are about its
folder, at most ${MOST_TESTS} of a file, so more may be noticed than is said here. Tests that were added for what a sample showed
raise its score more than that of all, though; another \`--seed\` draws another sample. Changes that make no difference to
anybody (*equivalent*) are counted apart, each with its reason in \`tests/mutation/equivalent.ts\`. The goal is 85 % of the
others.`,
  read: () => readResults(),
  show: (folders) =>
    blocks(
      table(
        ['folder', 'changes', 'tried', 'noticed', 'equivalent', 'score', '95 % interval', 'tried on', ''],
        FOLDERS.map(({ name }) => rowOf(name, folders[name])),
      ),
    ),
};

function rowOf(folder: string, results: FolderResults | undefined): readonly string[] {
  if (!results) return [`\`${folder}\``, '', '', '', '', 'not tried yet', '', '', ''];
  const { mutants, tried, killed, left, day } = results;
  const equivalent = left.filter(isEquivalent).length;
  const counted = tried - equivalent;
  const [from, to] = intervalOf(killed, counted, Math.max(counted, mutants - equivalent));
  return [
    `\`${folder}\``,
    figure(mutants, 0),
    tried === mutants ? 'all' : figure(tried, 0),
    figure(killed, 0),
    figure(equivalent, 0),
    percent(killed, counted),
    tried === mutants ? '–' : `${figure(100 * from, 0)} to ${figure(100 * to, 0)} %`,
    day,
    killed / counted >= 0.85 ? 'met' : '**not met**',
  ];
}
