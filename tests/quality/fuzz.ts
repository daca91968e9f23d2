import { table } from '../support/markdown.ts';
import { figure, type Part, readReport } from './part.ts';

interface Tried {
  readonly seed: number;
  readonly results: readonly {
    readonly target: string;
    readonly about: string;
    readonly cases: number;
    readonly seconds: number;
    readonly faults: number;
  }[];
}

/** Random cases of the last run. */
export const fuzz: Part<Tried> = {
  name: 'fuzz',
  title: 'Random cases',
  about: `Cases of the last run (\`npm run fuzz\`; in the gate \`fuzz\` a minute with a fixed seed). Every fault that was ever found
is kept in \`tests/fuzz/found\` and tried by a test.`,
  make: ['.project/test.mjs', 'fuzz'],
  read: () => readReport('fuzz.json'),
  show: ({ results }) =>
    table(
      ['target', 'about', 'cases', 'a second', 'faults'],
      results.map(({ target, about, cases, seconds, faults }) => [
        target,
        about,
        figure(cases, 0),
        figure(cases / seconds, 0),
        String(faults),
      ]),
    ),
};
