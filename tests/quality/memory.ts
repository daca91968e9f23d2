import { table } from '../support/markdown.ts';
import { figure, type Part, readReport } from './part.ts';

/** Bytes that the heap holds at each mark. */
interface Endurance {
  readonly marks: readonly number[];
  readonly edits: readonly number[];
  readonly files: readonly number[];
  readonly opened: readonly number[];
}

/** What the heap of the built server holds after long work. */
export const memory: Part<Endurance> = {
  name: 'memory',
  title: 'Memory over time',
  about: `What the heap of the built server holds after a collection (\`npm run endurance\`; the gate takes its short
form). Nothing may pile up: the last figure of a row is to be at most a tenth above the first.`,
  make: ['tests/endurance/endurance.ts'],
  read: () => readReport('endurance.json'),
  show: ({ marks, edits, files, opened }) =>
    table(
      ['after', 'heap, MB', 'growth', ''],
      [
        ...rowsOf(marks, edits, 'edits of a text of 3,000 lines'),
        ...rowsOf(files, opened, 'files opened and closed'),
      ],
    ),
};

function rowsOf(
  marks: readonly number[],
  heaps: readonly number[],
  what: string,
): readonly (readonly string[])[] {
  return marks.map((mark, index) => {
    const [first = Number.NaN, heap = Number.NaN] = [heaps[0], heaps[index]];
    const growth = index === 0 ? '–' : `${figure(heap / first, 2)} times`;
    const verdict = index === 0 ? '–' : heap / first <= 1.1 ? 'met' : '**not met**';
    return [`${figure(mark, 0)} ${what}`, figure(heap / 1e6, 1), growth, verdict];
  });
}
