import type { Reading } from '../../../server/core/units/index.ts';

/**
 * What came of reading a marked text: `‹` and `›` stand round the place where a problem is expected. The answer shows
 * the marks where the problem really is, its code, and the whole text after each repair.
 */
export function readMarked<T>(marked: string, read: (text: string) => Reading<T>) {
  const text = marked.replace(/[‹›]/g, '');
  const { value, problems } = read(text);
  const [problem] = problems;
  if (problem === undefined || problems.length > 1) return { marked: text, problems: problems.length, value };
  const { from, to, code, data, repairs } = problem;
  return {
    marked: `${text.slice(0, from)}‹${text.slice(from, to)}›${text.slice(to)}`,
    code,
    reason: data.reason,
    data,
    repaired: repairs.map((repair) => text.slice(0, repair.from) + repair.text + text.slice(repair.to)),
    labels: repairs.map((repair) => repair.label),
    value,
  };
}
