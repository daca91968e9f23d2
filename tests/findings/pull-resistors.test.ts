import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/* A sensor of the wrong kind is cured by a resistor that pulls its input, where the resistor can be written down. */

/** What is offered for the sensor on the page that a resistor cures, with its last link written otherwise. */
function offeredWith(write: (link: string) => string): readonly string[] {
  const example = readPageExamples({ code: 'polarity/sensor-kind' })[1];
  if (!example) throw new Error('the page has no second example');
  const texts = [...example.texts].map(
    ([name, text]) => [name, text.replace(/- (start-eye\.BU -> .*)/, (_, link) => write(link))] as const,
  );
  const found = analyseTexts(new Map(texts)).findings.find(({ code }) => code === 'polarity/sensor-kind');
  return (found?.fixes ?? []).map(({ title }) => title);
}

const OTHER_SENSOR = 'Use generic/inductive-pnp-no for start-eye';

test('a resistor is offered beside a sensor of the other kind', () => {
  expect(offeredWith((link) => `- ${link}`)).toEqual([
    OTHER_SENSOR,
    'Pull panel.ST to panel.24S by 1.8 kohm',
  ]);
});

test('none is offered where the last link stands below its dash, so that no line can be added like it', () => {
  expect(offeredWith((link) => `-\n    ${link}`)).toEqual([OTHER_SENSOR]);
});
