import { describe, expect, test } from 'vitest';
import { smallMachine } from '../core/values/small-machine.ts';
import { analyseTexts, applyFix } from '../support/marked.ts';

/** A machine whose panel makes up for some backlash of X, with what was measured on it. */
const machine = (set: string, ...records: readonly string[]) =>
  smallMachine({
    panelSettings:
      'scale: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3 }, play: { is: backlash, axis: X, unit: mm, decimals: 3, default: 0 mm }',
    panelSet: `scale: 160.000 /mm${set}`,
    more: `records:\n${records.map((record) => `  - { date: 2026-03-02, axis: X, ${record} }   # dial gauge\n`).join('')}`,
  });

const find = (text: string) => {
  const { analysis, findings } = analyseTexts(new Map([['small.machine.yaml', text]]));
  return { analysis, findings: findings.filter(({ code }) => /^(record|setting|shape|unit)\//.test(code)) };
};
const says = (text: string) => find(text).findings.map(({ code, message }) => `${code}: ${message}`);

describe('a measured play', () => {
  test('is added to what is made up for already, and the record notes what it replaced', () => {
    const text = machine(', play: 0.02 mm', 'backlash: 0.04 mm, within: 0.01 mm');
    const { analysis, findings } = find(text);
    expect(findings.map(({ message }) => message)).toEqual([
      'When X turns round, 0.04 mm of play are left with play of panel at 0.02 mm, and the measurement is good to 0.01 mm. Look first whether nut, belt or bearings can be tightened: what is made up for is still loose. Set play of panel to 0.06 mm.',
    ]);
    const [fix] = findings[0]?.fixes ?? [];
    expect(fix?.title).toBe('Set play of panel to 0.06 mm and note what it replaces');
    const after = fix ? applyFix(analysis, fix) : '';
    expect(after).toBe(
      text
        .replace('play: 0.02 mm', 'play: 0.06 mm')
        .replace('within: 0.01 mm }', 'within: 0.01 mm, setting: 0.02 mm }'),
    );
    expect(says(after)).toEqual([]);
  });

  test('is set where nothing is made up for as delivered', () => {
    const { findings } = find(machine('', 'backlash: 0.04 mm, within: 0.01 mm'));
    expect(findings.map(({ code }) => code)).toEqual(['record/backlash']);
    expect(findings[0]?.fixes?.[0]?.title).toBe('Set play of panel to 0.040 mm and note what it replaces');
  });

  test('that is negative was made up for too much', () =>
    expect(says(machine(', play: 0.06 mm', 'backlash: -0.02 mm, within: 0.005 mm'))[0]).toMatch(
      /0\.02 mm of play are made up for too much .* Set play of panel to 0\.04 mm\.$/,
    ));

  test('asks for nothing within its own uncertainty, or without one', () => {
    expect(says(machine('', 'backlash: 0.01 mm, within: 0.01 mm'))).toEqual([]);
    expect(says(machine('', 'backlash: 0.04 mm'))).toEqual([]);
  });

  test('is told where the setting cannot make up for it, however it is set', () => {
    const small = (text: string) =>
      text.replace('decimals: 3, default: 0 mm', 'decimals: 3, span: 0..0.05 mm, default: 0 mm');
    const told = (measured: string) =>
      `record/backlash: When X turns round, 0.04 mm of play are left with play of panel at 0.02 mm, and the measurement is good to 0.01 mm. Look first whether nut, belt or bearings can be tightened: what is made up for is still loose. ${measured} would have to be made up for, and play of panel takes no more than 0.05 mm.`;
    expect(says(small(machine(', play: 0.02 mm', 'backlash: 0.04 mm, within: 0.01 mm')))).toEqual([
      told('0.06 mm'),
    ]);
    expect(
      says(small(machine(', play: 0.05 mm', 'backlash: 0.04 mm, within: 0.01 mm, setting: 0.02 mm'))),
    ).toEqual([told('0.06 mm')]);
  });

  test('tells nothing of now when it was made with another setting', () =>
    expect(says(machine(', play: 0.03 mm', 'backlash: 0.04 mm, within: 0.01 mm, setting: 0.02 mm'))).toEqual([
      'record/older-than-setting: X had 0.04 mm of play with 0.02 mm, and play of panel now says 0.03 mm: it tells nothing of the play that is left now. Measure again.',
    ]));

  test('leaves the measured travel of the axis what it is, older as it may be', () =>
    expect(
      says(
        machine(
          ', play: 0.06 mm',
          'asked: 500 mm, seen: 499.62 mm, within: 0.05 mm',
          'backlash: 0.04 mm, within: 0.01 mm, setting: 0.02 mm',
        ),
      ),
    ).toEqual([expect.stringMatching(/^record\/correction: X went 499\.62 mm for 500 mm/)]));

  test('in degrees makes nothing of a linear axis', () =>
    expect(says(machine('', 'backlash: 0.04 deg, within: 0.01 deg'))).toEqual([]));

  test('is a length on a linear axis, checked like others', () =>
    expect(find(machine('', 'backlash: 40 mm, within: 0.01 mm')).findings.map(({ code }) => code)).toEqual([
      'unit/implausible',
    ]));
});
