import { expect, test } from 'vitest';
import { writeSetting } from '../../server/core/findings/common/setting-edit.ts';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/** What a measured travel asks for, and how it is written into the setting. */

/** The page's machine, which is keyed in at 160 /mm and went 499.62 mm for 500 mm, with another span of its setting. */
function analysePage(span: string) {
  const [example] = readPageExamples({ code: 'record/correction' });
  if (!example) throw new Error('the page has no example');
  return analyseTexts(
    new Map(
      [...example.texts].map(([name, text]) => [name, text.replace('span: 1..20000 /mm', `span: ${span}`)]),
    ),
  );
}

const codesAt = (span: string) => analysePage(span).findings.map(({ code }) => code);

test('a correction is asked for where the setting goes as far', () => {
  // 160 /mm * 500 / 499.62 = 160.122 /mm
  expect(codesAt('1..161 /mm')).toContain('record/correction');
});

test('nothing is asked for that the setting cannot take', () => {
  expect(codesAt('1..160 /mm')).not.toContain('record/correction');
});

test.each([
  [0, '0.000 /mm'],
  [160e3, '160.000 /mm'],
  [160_121.8, '160.1218 /mm'],
  [1e3 / 3, '0.333333333 /mm'],
])('%d per metre is written with the decimals of the setting, and more where it has more: %s', (si, text) => {
  const { analysis } = analysePage('0..20000 /mm');
  const setting =
    analysis.kind === 'machine' && analysis.machine.parts.get('panel')?.sheet?.settings.get('P21');
  if (!setting) throw new Error('the page has no such setting');
  expect(writeSetting(setting, si)).toBe(text);
});
