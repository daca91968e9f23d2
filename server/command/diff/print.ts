import { type Changes, isEmpty } from '../../core/changes/changes.ts';
import { type ChangeLine, type ChangeSection, describeChanges } from '../../core/changes/describe.ts';
import { printMarkdown } from '../../core/changes/markdown.ts';
import { say } from '../../core/language/say.ts';
import { h, printHtml, type ViewElement } from '../../core/summary/view.ts';
import { createColours, printable } from '../colours.ts';
import { printPlainPage } from '../page.ts';

/** What a sign before a line means. */
const sayKind = (kind: ChangeLine['kind']) =>
  ({ added: say`added`, removed: say`removed`, changed: say`changed` })[kind];

const MARKS = { added: '+', removed: '-', changed: '~' } as const;

/** A comparison for a terminal. */
export function printChangesText(changes: Changes, colour: boolean): string {
  if (isEmpty(changes)) return '';
  const colours = createColours(colour);
  const paint = { added: colours.added, removed: colours.removed, changed: colours.hint };
  const print = ({ kind, text, detail }: ChangeLine) =>
    `  ${paint[kind](`${MARKS[kind]} ${printable(text)}`)}\n${detail === '' ? '' : `      ${colours.faint(printable(detail))}\n`}`;
  return describeChanges(changes)
    .map(({ title, lines }) => `${colours.strong(title)}\n${lines.map(print).join('')}`)
    .join('\n');
}

/** A comparison as Markdown, for a pull request. */
export function printChangesMarkdown(changes: Changes): string {
  return printMarkdown(changes);
}

/** A comparison as plain data: every value, not the headlines alone. */
export function printChangesJson(changes: Changes): string {
  const { values, appeared, gone, steps, ...rest } = changes;
  const finding = ({ code, severity, message }: Changes['gone'][number]) => ({ code, severity, message });
  const data = {
    ...rest,
    parts: rest.parts.map(({ id, before, after }) => ({ id, before: before?.sheet, after: after?.sheet })),
    values: values.map(({ id, before, after, causes }) => ({
      id,
      before: before && { value: before.word ?? before.value, unit: before.unit, shown: before.shown },
      after: after && {
        value: after.word ?? after.value,
        unit: after.unit,
        shown: after.shown,
        working: after.working,
      },
      causes,
    })),
    findings: { appeared: appeared.map(finding), gone: gone.map(finding) },
    steps: steps.map(({ id, before, after }) => ({ id, state: after ? (before ? 'again' : 'new') : 'gone' })),
  };
  return `${JSON.stringify(data, null, 2)}\n`;
}

/** A comparison as one page that needs nothing else. */
export function printChangesHtml(changes: Changes, names: readonly [string, string]): Promise<string> {
  const sections = describeChanges(changes).map(sectionView);
  const body = h(
    'div',
    { class: 'items' },
    h(
      'header',
      { class: 'title' },
      h('h1', {}, changes.title || say`Machine`),
      h('p', { class: 'about' }, say`What follows from ${names[0]} → ${names[1]}`),
    ),
    sections.length > 0 ? sections : h('p', { class: 'muted' }, say`Nothing follows from what differs.`),
  );
  return printPlainPage(say`${changes.title || say`Machine`}: consequences`, printHtml(body));
}

function sectionView({ title, lines }: ChangeSection): ViewElement {
  return h(
    'section',
    { class: 'summary-section changes', 'aria-label': title },
    h('h2', {}, title),
    h(
      'ul',
      {},
      lines.map(({ kind, text, detail }) =>
        h(
          'li',
          { class: kind },
          h('abbr', { title: sayKind(kind) }, MARKS[kind]),
          ` ${text}`,
          detail === '' ? undefined : h('p', { class: 'muted' }, detail),
        ),
      ),
    ),
  );
}
