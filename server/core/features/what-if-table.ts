import { isHeadline, showValue } from '../changes/values.ts';
import type { Finding } from '../findings/rule.ts';
import type { Derived } from '../values/derived.ts';
import { codeSpan, escapeMarkdown, titleOf } from './markdown.ts';
import type { WhatIf } from './what-if.ts';

/** What a change would do, as a Markdown page: the change, the values before and after, findings that come and go. */
export function printWhatIf(tried: Extract<WhatIf, { kind: 'tried' }>): string {
  const { changes, values, appeared, gone } = tried;
  const shown = values.filter(({ id }) => isHeadline(id));
  const rest = values.length - shown.length;
  return [
    ...changes.map(
      ({ path, value, before }) =>
        `# With ${codeSpan(path)} ${codeSpan(value)}${before === undefined ? '' : ` in place of ${codeSpan(before)}`}\n`,
    ),
    'Nothing was changed in the text.\n',
    ...(shown.length > 0
      ? [
          '| what | now | then |\n| --- | ---: | ---: |',
          ...shown.map(
            ({ id, before, after }) =>
              `| ${escapeMarkdown(titleOf(id))} | ${cell(show(before))} | ${cell(show(after))} |`,
          ),
          '',
        ]
      : []),
    ...(rest > 0 && shown.length > 0
      ? [`${rest} more ${rest === 1 ? 'value changes' : 'values change'} on the way to these.\n`]
      : []),
    ...findings('Findings that come', appeared),
    ...findings('Findings that go', gone),
    ...(values.length + appeared.length + gone.length === 0 ? ['Nothing that is computed changes.\n'] : []),
  ].join('\n');
}

function show(value: Derived | undefined): string {
  return value ? showValue(value) : 'not computed';
}

/** A bar ends a cell even inside a code span. */
function cell(text: string): string {
  return codeSpan(text).replaceAll('|', '\\|');
}

function findings(title: string, list: readonly Finding[]): string[] {
  if (list.length === 0) return [];
  return [
    `## ${title}\n`,
    ...list.map(
      ({ severity, code, message }) => `- **${severity}** ${escapeMarkdown(message)} (${codeSpan(code)})`,
    ),
    '',
  ];
}
