import { isHeadline, showValue } from '../changes/values.ts';
import type { Finding } from '../findings/rule.ts';
import { sayGravity } from '../findings/severity.ts';
import { say } from '../language/say.ts';
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
        `# ${say`With ${codeSpan(path)} ${codeSpan(value)}${before === undefined ? '' : say` in place of ${codeSpan(before)}`}`}\n`,
    ),
    `${say`Nothing was changed in the text.`}\n`,
    ...(shown.length > 0
      ? [
          `| ${say`what`} | ${say`now`} | ${say`then`} |\n| --- | ---: | ---: |`,
          ...shown.map(
            ({ id, before, after }) =>
              `| ${escapeMarkdown(titleOf(id))} | ${cell(show(before))} | ${cell(show(after))} |`,
          ),
          '',
        ]
      : []),
    ...(rest > 0 && shown.length > 0
      ? [
          `${rest === 1 ? say`1 more value changes on the way to these.` : say`${rest} more values change on the way to these.`}\n`,
        ]
      : []),
    ...findings(say`Findings that come`, appeared),
    ...findings(say`Findings that go`, gone),
    ...(values.length + appeared.length + gone.length === 0
      ? [`${say`Nothing that is computed changes.`}\n`]
      : []),
  ].join('\n');
}

function show(value: Derived | undefined): string {
  return value ? showValue(value) : say`not computed`;
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
      ({ severity, code, message }) =>
        `- **${sayGravity(severity)}** ${escapeMarkdown(message)} (${codeSpan(code)})`,
    ),
    '',
  ];
}
