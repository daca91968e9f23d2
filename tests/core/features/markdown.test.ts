import fc from 'fast-check';
import { expect, test } from 'vitest';
import { codeSpan, escapeMarkdown, titleOf } from '../../../server/core/features/markdown.ts';

test.each([
  ['drive-x at 1.5 m', 'drive-x at 1.5 m'],
  ['- not a list', '\\- not a list'],
  ['1. not a list', '1\\. not a list'],
  ['[x](http://y)', '\\[x\\](http\\://y)'],
  ['<img src=x>', '\\<img src=x\\>'],
  ['a\nb', 'a b'],
  ['www.example', 'www\\.example'],
])('%s is written %s', (text, expected) => expect(escapeMarkdown(text)).toBe(expected));

test('a code span holds any text on one line', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom('`', 'a', '\n', ' ') }), (text) => {
      const span = codeSpan(text);
      const fence = /^`+/.exec(span)?.[0] ?? '';
      expect(span.endsWith(fence)).toBe(true);
      expect(span).not.toContain('\n');
    }),
  );
});

test.each([
  ['axes.X.pulses-per-length', 'pulses per length of X'],
  ['axes.X.timing.lead-margin', 'lead margin of X'],
  ['parts.panel.supply-voltage', 'supply voltage of panel'],
  ['settings.panel.P1.wanted', 'P1 of panel, wanted'],
])('%s is called %s', (address, title) => expect(titleOf(address)).toBe(title));
