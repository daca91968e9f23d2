import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/* What an isolated input is told to be wrong with, by how much voltage its lamp gets. */

/** The codes that are said of the page's reversed lamp, on a supply of so many volts. */
function codesAt(volts: number): readonly string[] {
  const [example] = readPageExamples({ code: 'polarity/opto-reversed' });
  if (!example) throw new Error('the page has no example');
  const texts = [...example.texts].map(
    ([name, text]) => [name, text.replace('voltage: 5 V', `voltage: ${volts} V`)] as const,
  );
  return analyseTexts(new Map(texts)).findings.map(({ code }) => code);
}

test('a reversed lamp is called so where it would be on the other way round', () => {
  // (3.6 V - 0.3 V - 1.2 V) / 330 ohm = 6.4 mA, and it needs 6 mA
  expect(codesAt(3.6)).toContain('polarity/opto-reversed');
});

test('a lamp that would not be on the other way round either is not', () => {
  // (2.7 V - 0.3 V - 1.2 V) / 330 ohm = 3.6 mA; without what the lamp itself takes it would be 7.3 mA
  expect(codesAt(2.7)).not.toContain('polarity/opto-reversed');
});
