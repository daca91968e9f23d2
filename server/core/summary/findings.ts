import type { MachineAnalysis } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import type { Finding, Severity } from '../findings/rule.ts';
import { later, said, say } from '../language/say.ts';
import { rangeOf } from '../syntax/tree.ts';
import { findingId, idAt } from './places.ts';
import { h, type ViewElement } from './view.ts';

const WORDS: Readonly<Record<Severity, string>> = {
  error: later`error`,
  warning: later`warning`,
  hint: later`hint`,
};

function sayCount(severity: Severity, count: number): string {
  if (severity === 'error') return count === 1 ? say`1 error` : say`${count} errors`;
  if (severity === 'warning') return count === 1 ? say`1 warning` : say`${count} warnings`;
  return count === 1 ? say`1 hint` : say`${count} hints`;
}

/** Nobody reads more at once, and each is looked up with its cures. */
const MOST_LISTED = 100;

const GRAVITY: Readonly<Record<Severity, number>> = { error: 0, warning: 1, hint: 2 };

/** What is wrong or could be better, with the cures that can be had by a click, and the id of the thing that it is about. */
export function findingsView(analysis: MachineAnalysis): ViewElement {
  const findings = findAll(analysis);
  const counts = (['error', 'warning', 'hint'] as const).map((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    const none = count === 0 ? ' none' : '';
    return h('span', { class: `count ${severity}${none}` }, sayCount(severity, count));
  });
  // Numbered as they stand in the text, so that a click finds its finding again.
  const numbered = findings.map((finding, index) => ({ finding, index }));
  const gravest =
    numbered.length > MOST_LISTED
      ? numbered.toSorted((a, b) => GRAVITY[a.finding.severity] - GRAVITY[b.finding.severity])
      : numbered;
  const list = gravest
    .slice(0, MOST_LISTED)
    .map(({ finding, index }) => findingView(analysis, finding, index));
  if (list.length < findings.length)
    list.push(
      h(
        'li',
        { class: 'muted' },
        say`and ${findings.length - list.length} more, no graver than these; see the editor`,
      ),
    );
  return h(
    'div',
    { class: 'findings' },
    h('h3', {}, say`Findings`),
    // Blanks between them are for texts that have no style sheet.
    h(
      'p',
      { class: 'counts' },
      counts.flatMap((count, index) => (index === 0 ? [count] : [' ', count])),
    ),
    list.length > 0
      ? h('ul', {}, list)
      : h(
          'p',
          { class: 'muted' },
          say`Nothing found by the checks that exist. That is not a proof that the machine is safe.`,
        ),
  );
}

function findingView(analysis: MachineAnalysis, finding: Finding, index: number): ViewElement {
  const { severity, message, code, fixes = [] } = finding;
  const from = rangeOf(analysis.tree, finding.at)?.from ?? 0;
  const line = analysis.tree.text.slice(0, from).split('\n').length;
  return h(
    'li',
    {
      class: `finding ${severity}`,
      'data-id': findingId(index),
      'data-about': idAt(analysis, from),
      'data-severity': severity,
      tabindex: 0,
    },
    h('strong', {}, said(WORDS[severity])),
    ' ',
    h('span', { class: 'says' }, message),
    ' ',
    h('small', {}, say`line ${line}, ${code}`),
    fixes.length === 0
      ? undefined
      : h(
          'span',
          { class: 'tool-only fixes' },
          fixes.map(({ title }) => fixButton(index, title)),
        ),
  );
}

function fixButton(index: number, title: string): ViewElement {
  return h(
    'button',
    { class: 'tool', 'data-act': 'fix', 'data-finding': findingId(index), 'data-fix': title },
    title,
  );
}
