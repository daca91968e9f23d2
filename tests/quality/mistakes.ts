import { tryAll } from '../mistakes/try-all.ts';
import { table } from '../support/markdown.ts';
import { figure, type Part, percent } from './part.ts';

interface Fared {
  readonly example: string;
  readonly made: number;
  readonly caught: number;
  readonly placed: number;
  readonly extra: number;
}

/** How the mistakes that people make fare, example by example. */
export const mistakes: Part<readonly Fared[]> = {
  name: 'mistakes',
  title: 'Mistakes that people make',
  about: `Each is made in an example by itself (\`npm run mistakes\`): caught when its finding is said, placed when that stands at
the line where the mistake was made; extra findings are those beside it, each accepted for a reason that is written down.`,
  read: () =>
    tryAll().map(({ example, verdicts }) => ({
      example,
      made: verdicts.length,
      caught: verdicts.filter(({ isCaught }) => isCaught).length,
      placed: verdicts.filter(({ isPlaced }) => isPlaced).length,
      extra: verdicts.reduce((sum, verdict) => sum + verdict.extra.length, 0),
    })),
  show: (all) =>
    table(
      ['example', 'made', 'caught', 'placed', 'extra'],
      all.map(({ example, made, caught, placed, extra }) => [
        example,
        figure(made, 0),
        percent(caught, made),
        percent(placed, made),
        String(extra),
      ]),
    ),
};
