import { describe, expect, test } from 'vitest';
import { RULES } from '../../server/core/findings/list.ts';
import { analyseTexts, applyFix, type Texts, VARIANTS } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/** The examples of the pages are executed: a page cannot claim what does not happen. */

function vary(texts: Texts, change: (text: string) => string): Texts {
  return new Map([...texts].map(([name, text]) => [name, change(text)]));
}

/** The comments of a text, sorted; those that speak to the tool are its own affair. */
function commentsOf(text: string): string[] {
  return [...text.matchAll(/(?:^|\s)(#(?! fettle ).*)$/gm)].map(([, comment = '']) => comment.trim()).sort();
}

/** Said of every machine with motors, in one form or another. */
const CAUTION = 'safety/emergency-stop-caution';

const pages = RULES.map((rule) => ({ rule, examples: readPageExamples(rule) }));

test('every finding has a page, and each page shows it wrong and right', () => {
  expect(pages.length).toBeGreaterThan(40);
  for (const { rule, examples } of pages) {
    for (const kind of ['wrong', 'right']) {
      expect(
        examples.some((example) => example.kind === kind),
        `${rule.code} ${kind}`,
      ).toBe(true);
    }
  }
});

test('codes are unique', () => {
  expect(new Set(RULES.map((rule) => rule.code)).size).toBe(RULES.length);
});

describe.each(pages)('$rule.code', ({ rule, examples }) => {
  describe.each([...VARIANTS])('%s', (_, change) => {
    test.each(examples.map((example, index) => [index + 1, example] as const))(
      'example %i',
      (_index, example) => {
        const texts = vary(example.texts, change);
        const { findings } = analyseTexts(texts);
        const shown = findings.map(({ code, severity, message }) => `${severity} ${code}: ${message}`);
        // The standing caution goes with every machine that has an emergency stop or lacks one.
        const counted = findings.filter(
          ({ severity, code }) =>
            severity !== 'hint' || (rule.severity === 'hint' && (code === rule.code || code !== CAUTION)),
        );
        if (example.kind === 'wrong')
          expect(
            counted.map((finding) => finding.code),
            shown.join('\n'),
          ).toEqual([rule.code]);
        else {
          expect(
            findings.filter((finding) => finding.severity !== 'hint' || finding.code === rule.code),
            shown.join('\n'),
          ).toEqual([]);
        }
      },
    );
  });

  test('its fixes cure it and keep the comments', () => {
    for (const change of VARIANTS.values()) {
      for (const { texts } of examples.filter((example) => example.kind === 'wrong')) {
        const varied = vary(texts, change);
        const { analysis, findings } = analyseTexts(varied);
        for (const fix of findings
          .filter(({ code }) => code === rule.code)
          .flatMap(({ fixes }) => fixes ?? [])) {
          const text = applyFix(analysis, fix);
          const after = analyseTexts(new Map([...varied, [analysis.file, text]]));
          expect(
            after.findings.map(({ code }) => code),
            `${fix.title}:\n${text}`,
          ).not.toContain(rule.code);
          // What a fix removes may hold comments of its own; all others stay.
          const untouched = applyFix(analysis, {
            ...fix,
            edits: fix.edits.map((edit) => ({ ...edit, text: '' })),
          });
          expect(commentsOf(text), fix.title).toEqual(commentsOf(untouched));
          expect(mixesLineEnds(text), fix.title).toBe(false);
        }
      }
    }
  });
});

function mixesLineEnds(text: string): boolean {
  return /\r\n/.test(text) && /(?:^|[^\r])\n/.test(text);
}
