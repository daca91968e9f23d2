import { expect, test } from 'vitest';
import { writeSetting } from '../../server/core/findings/common/setting-edit.ts';
import { listSettings } from '../../server/core/summary/settings/rows.ts';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/** What a measured travel asks for, and how it is written into the setting. */

/** The page's machine, which is keyed in at 160 /mm and went 499.62 mm for 500 mm, with another span of its setting. */
function analysePage(span: string, ...changes: readonly (readonly [from: string, to: string])[]) {
  const [example] = readPageExamples({ code: 'record/correction' });
  if (!example) throw new Error('the page has no example');
  return analyseTexts(
    new Map(
      [...example.texts].map(([name, text]) => [
        name,
        changes.reduce(
          (changed, [from, to]) => changed.replaceAll(from, to),
          text.replace('span: 1..20000 /mm', `span: ${span}`),
        ),
      ]),
    ),
  );
}

const codesAt = (span: string) => analysePage(span).findings.map(({ code }) => code);

test('a correction is asked for where the setting goes as far', () => {
  // 160 /mm * 500 / 499.62 = 160.122 /mm
  expect(codesAt('1..161 /mm')).toContain('record/correction');
});

test('what the setting cannot take is told, and not offered', () => {
  const found = analysePage('1..160 /mm').findings.filter(({ code }) => code === 'record/correction');
  expect(found.map(({ message }) => message)).toEqual([
    'X went 499.62 mm for 500 mm: 380 um off, and the measurement is good to 0.05 mm. P21 of panel is at 160.000 /mm and would have to be 160.122 /mm, but it takes no more than 160 /mm.',
  ]);
  expect(found.flatMap(({ fixes = [] }) => fixes)).toEqual([]);
});

test('a travel that was measured the other way round asks for the same correction', () => {
  const { findings } = analysePage('1..20000 /mm', ['seen: 499.62 mm', 'seen: -499.62 mm']);
  // 160 /mm * 500 / 499.62 = 160.122 /mm
  expect(findings.find(({ code }) => code === 'record/correction')?.message).toMatch(/to 160\.122 \/mm\.$/);
});

test('a travel too far off to be corrected is told where it was measured with what is keyed in now', () => {
  const far = ['seen: 499.62 mm, within: 0.05 mm', 'seen: 440 mm, within: 0.05 mm, scale: 160 /mm'] as const;
  const { findings } = analysePage('1..20000 /mm', far);
  // 160 /mm * 500 / 440 = 181.8 /mm
  expect(findings.filter(({ code }) => code.startsWith('record/')).map(({ message }) => message)).toEqual([
    'X went 440 mm for 500 mm with 160.000 /mm in P21 of panel, as it still is: that makes 181.8 /mm, and what is written of the axis makes 160 /mm. No play, pitch error or stretched belt is as large. Look whether microsteps, gearing and carrier are what is written, whether steps were lost, and measure again.',
  ]);
});

test('a scale beyond the span of its setting is told with what it would have to be, and still is at the end of the span', () => {
  const record = [
    '  - { date: 2026-03-02, axis: X, asked: 500 mm, seen: 499.62 mm, within: 0.05 mm }   # with a steel rule\n',
    '',
  ] as const;
  const says = (set: string) =>
    analysePage('1..100 /mm', record, ['records:\n', ''], ['P21: 160.000 /mm', `P21: ${set}`])
      .findings.filter(({ code }) => code.startsWith('setting/'))
      .map(({ message }) => message);
  const makes =
    'but steps per turn 200, microsteps 8 and screw lead 10 mm make 160 /mm: moves would come out';
  expect(says('50.000 /mm')).toEqual([
    `P21 of panel says 50.000 /mm, ${makes} 0.3125 times as long. Set it to 100.000 /mm. It takes no more than 100 /mm: change what asks for it, or the part.`,
  ]);
  expect(says('100.000 /mm')).toEqual([
    `P21 of panel says 100.000 /mm, ${makes} 0.625 times as long. It takes no more than 100 /mm: change what asks for it, or the part.`,
  ]);
});

test('the settings sheet does not take the end of a span for what was wanted', () => {
  const record = [
    '  - { date: 2026-03-02, axis: X, asked: 500 mm, seen: 499.62 mm, within: 0.05 mm }   # with a steel rule\n',
    '',
  ] as const;
  const rowWith = (span: string, set: string) => {
    const { analysis } = analysePage(span, record, ['records:\n', ''], ['P21: 160.000 /mm', `P21: ${set}`]);
    if (analysis.kind !== 'machine') throw new Error('no machine');
    return listSettings(analysis)[0]?.rows.find(({ setting }) => setting === 'P21');
  };
  const atEnd = rowWith('1..100 /mm', '100.000 /mm');
  expect(atEnd).toMatchObject({ state: 'differs', wanted: '100.000 /mm' });
  expect(atEnd?.why).toMatch(
    /It would have to be 160 \/mm\. It takes no more than 100 \/mm: change what asks for it, or the part\.$/,
  );
  expect(rowWith('1..20000 /mm', '160.000 /mm')).toMatchObject({ state: 'agrees', wanted: '160.000 /mm' });
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
