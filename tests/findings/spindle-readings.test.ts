import { describe, expect, test } from 'vitest';
import { analyseTexts, applyFix } from '../support/marked.ts';

const settings = {
  panel: '{ top: { is: spindle-top-speed, unit: rpm, decimals: 0, default: 24000 rpm } }',
  converter:
    '{ ref: { is: speed-reference, choices: [0..5 V, 0..10 V, 0..20 V], default: 0..10 V }, most: { is: top-frequency, unit: Hz, decimals: 0, default: 400 Hz } }',
};

const mill = (readings: string, top = '24000 rpm', converter = '') => `machine: Toy mill
parts:
  panel: { class: controller, terminals: { s: [SV, G] }, circuits: { speed: { analog-out: [SV, G], does: spindle speed, span: 0..10 V } }, settings: ${settings.panel}, set: { top: ${top} } }
  vfd: { class: converter, terminals: { c: [AI, AC] }, circuits: { speed: { analog-in: [AI, AC], does: spindle speed, span: 0..10 V } }, settings: ${settings.converter}, set: { ${converter} } }
  head: { class: spindle, facts: { poles: 2, plate-frequency: 400 Hz, plate-speed: 24000 rpm } }
wiring:
  - panel.SV -> vfd.AI
  - panel.G -> vfd.AC
spindle:
  converter: vfd
  motor: head
  top-speed: 24000 rpm
  readings:
${readings}
`;
/** Readings of a spindle that really turns at a share of what is asked, and so much more. */
const at = (share: number, more = 0) =>
  [6000, 12000, 24000]
    .map((asked) => `    - { asked: ${asked} rpm, seen: ${asked * share + more} rpm }   # warm`)
    .join('\n');

const find = (text: string) => {
  const { analysis, findings } = analyseTexts(new Map([['mill.machine.yaml', text]]));
  return {
    analysis,
    findings: findings.filter(({ code }) => /^(spindle|record|setting|level)\//.test(code)),
  };
};
const only = (text: string) => {
  const { analysis, findings } = find(text);
  expect(findings).toHaveLength(1);
  const [finding] = findings;
  if (!finding) throw new Error('nothing was found');
  return { analysis, finding };
};

describe('the likeliest cause is named', () => {
  test.each([
    ['another span', at(0.5), /what a span of 0\.\.20 V would make: look whether ref of vfd is really set/],
    [
      'another top frequency',
      at(0.74),
      /what a top frequency of 300 Hz would make: look whether the converter is really set to 400 Hz/,
    ],
    [
      'an offset',
      at(1, 3000),
      /a line that starts at 3000 rpm instead of nothing: the speed signal has an offset/,
    ],
    [
      'not what the converter gives, where that is keyed in',
      at(0.935),
      /slip alone makes 2 to 5 %\. A top speed of 22440 rpm in place of 24000 rpm would leave 0 %/,
    ],
    [
      'nothing that is known',
      at(0.88),
      /slip alone makes 2 to 5 %\. A top speed of 21120 rpm in place of 24000 rpm would leave 0 %/,
    ],
  ])('%s', (_, readings, words) => expect(only(mill(readings)).finding.message).toMatch(words));

  test('a factor of two, where nothing is known of the converter', () => {
    const text = mill(at(0.5)).replace('  converter: vfd\n', '');
    expect(only(text).finding.message).toContain('A factor of two speaks of');
  });

  test('and where a setting explains it, only the setting is told', () => {
    expect(only(mill(at(0.75), '32000 rpm')).finding.code).toBe('setting/differs');
  });

  test('no top speed is offered against an offset', () =>
    expect(only(mill(at(1, 3000))).finding.fixes).toEqual([]));
});

describe('the correction', () => {
  const text = mill(at(0.88));

  test('is set, and every reading notes what it replaced', () => {
    const { analysis, finding } = only(text);
    const [fix] = finding.fixes ?? [];
    expect(fix?.title).toBe('Set top of panel to 21120 rpm and note what it replaces');
    const after = fix ? applyFix(analysis, fix) : '';
    expect(after).toBe(
      text
        .replace('set: { top: 24000 rpm }', 'set: { top: 21120 rpm }')
        .replaceAll(/(seen: \d+ rpm) }/g, '$1, top-speed: 24000 rpm }'),
    );
    expect(find(after).findings).toEqual([]);
  });

  test('is a hint while slip may still be much of it', () => {
    const { finding } = only(mill(at(0.935)));
    expect([finding.code, finding.severity]).toEqual(['spindle/correction', 'hint']);
    expect(finding.fixes?.[0]?.title).toMatch(/^Set top of panel to 22440 rpm/);
  });

  test('and a reading made with yet another top speed tells nothing of now', () => {
    const old = mill('    - { asked: 9000 rpm, seen: 7920 rpm, top-speed: 20000 rpm }');
    const { finding } = only(old);
    expect(finding.code).toBe('record/older-than-setting');
    expect(finding.message).toBe(
      'The spindle turned at 7920 rpm for 9000 rpm with 20000 rpm, and top of panel now says 24000 rpm: it tells nothing of how fast it turns now. Measure again.',
    );
  });

  test('a new reading stands for the old ones', () => {
    const again = mill(
      '    - { asked: 9000 rpm, seen: 7920 rpm, top-speed: 20000 rpm }\n    - { asked: 9000 rpm, seen: 8950 rpm }',
    );
    expect(find(again).findings).toEqual([]);
  });
});
