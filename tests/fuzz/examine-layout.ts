import type { Analysis } from '../../server/core/analysis.ts';
import type { TextChange } from '../../server/core/features/formatting.ts';
import type { Fettle } from '../../server/core/fettle.ts';
import { must } from './case.ts';

function apply(text: string, changes: readonly TextChange[]): string {
  return changes
    .toSorted((a, b) => b.from - a.from)
    .reduce((now, { from, to, text: put }) => now.slice(0, from) + put + now.slice(to), text);
}

const bare = (text: string) => text.replaceAll(/\s/g, '');

/** What is found; beside what is no YAML only that, since what follows from it is held back by where it stands. */
function codesOf(fettle: Fettle, analysis: Analysis): string {
  const codes = fettle.findings(analysis).map(({ code }) => code);
  const broken = codes.filter((code) => code.startsWith('yaml/'));
  return (broken.length > 0 ? broken : codes).sort().join();
}

/** Laying a text out changes blanks alone, and finds nothing to do the second time. @throws Fault */
export function examineLayout(fettle: Fettle, analysis: Analysis): void {
  const { text } = analysis.tree;
  const once = apply(text, fettle.format(analysis));
  must(bare(once) === bare(text), () => 'formatting lost text');
  const again = fettle.analyse(analysis.file, once);
  must(apply(once, fettle.format(again)) === once, () => 'formatting is not done after once');
  const [before, after] = [codesOf(fettle, analysis), codesOf(fettle, again)];
  must(after === before, () => `findings before and after formatting: ${before}; ${after}`);
  const [from, to] = [Math.floor(text.length / 3), Math.floor(text.length / 2)];
  must(
    bare(apply(text, fettle.formatRange(analysis, from, to))) === bare(text),
    () => 'formatting of a stretch lost text',
  );
  must(
    bare(apply(text, fettle.formatOnType(analysis, to))) === bare(text),
    () => 'formatting while typing lost text',
  );
}
