import { describe, expect, test } from 'vitest';
import { describeWhatIf, type WhatIf } from '../../../server/core/features/what-if.ts';
import { readExample } from '../../support/example.ts';
import { analyseExample, fettle } from './example.ts';

const analysis = analyseExample();

function tryOut(changes: Readonly<Record<string, string>>): Extract<WhatIf, { kind: 'tried' }> {
  const tried = fettle.whatIf(
    analysis,
    Object.entries(changes).map(([path, value]) => ({ path, value })),
  );
  if (tried.kind !== 'tried') throw new Error(tried.why);
  return tried;
}

function refuse(path: string, value = '1'): string {
  const tried = fettle.whatIf(analysis, [{ path, value }]);
  return tried.kind === 'refused' ? tried.why : 'tried';
}

const valueIn = (tried: ReturnType<typeof tryOut>, address: string) =>
  tried.values.find((value) => value.id === address);

describe('a setting of a part', () => {
  const tried = tryOut({ 'parts.drive-x.microsteps': '16' });

  test('doubles the pulses of its axis, and no other axis changes', () => {
    const scale = valueIn(tried, 'axes.X.pulses-per-length');
    expect([scale?.before?.value, scale?.after?.value]).toEqual([160, 320]);
    expect(tried.changes).toEqual([{ path: 'parts.drive-x.microsteps', value: '16', before: '8' }]);
    expect(tried.values.filter(({ id }) => /^axes\.[YZA]\./.test(id))).toEqual([]);
  });

  test('brings the findings that follow from it', () => {
    expect(tried.appeared.map(({ code }) => code)).toContain('setting/differs');
    expect(tried.gone).toEqual([]);
  });

  test('leaves the text and what is kept of it alone', () => {
    expect(analysis.tree.text).toBe(readExample());
    expect(fettle.analyse(analysis.file, readExample()).tree).toBe(analysis.tree);
  });

  test('is described with its working before and after', () => {
    const lines = describeWhatIf(tried, 'axes.X.pulses-per-length');
    expect(lines[0]).toBe('With parts.drive-x.microsteps 16 in place of 8');
    expect(lines).toContain('pulses per length of X: 160 /mm → 320 /mm');
    expect(lines).toContain('What else changes:');
    expect(lines.join('\n')).toMatch(/warning setting\/differs: c1-1 of panel says 160\.000 \/mm/);
  });
});

test('a setting that is not set yet is added to the part', () => {
  const tried = tryOut({ 'parts.logic-psu.output-voltage': '25 V' });
  expect(valueIn(tried, 'parts.panel.supply-voltage')?.after?.value).toBe(25);
  expect(tried.after.tree.text).toContain('set: { output-voltage: 25 V }');
});

test('several values are tried together', () => {
  const tried = tryOut({ 'axes.X.screw.lead': '5 mm', 'parts.drive-x.microsteps': '4' });
  expect(valueIn(tried, 'axes.X.pulses-per-length')).toBeUndefined(); // 200 × 4 / 5 is 200 × 8 / 10
  expect(describeWhatIf(tried, 'axes.X.pulses-per-length')).toContain(
    'pulses per length of X: 160 /mm, as before',
  );
});

test('values in lists and keys that were not there can be tried', () => {
  expect(tryOut({ 'records.0.seen': '499.0 mm' }).changes[0]?.before).toBe('499.98 mm');
  const tried = tryOut({ 'axes.X.gearing': '2:1' });
  expect(valueIn(tried, 'axes.X.pulses-per-length')?.after?.value).toBe(320);
});

test('a value that means nothing is a finding of the copy', () => {
  const tried = tryOut({ 'axes.X.travel': '620' });
  expect(tried.appeared.map(({ code }) => code)).toContain('unit/missing');
});

test.each([
  [
    'parts.drive-x.microstep',
    'There is nothing at parts.drive-x.microstep. Did you mean parts.drive-x.microsteps?',
  ],
  ['axes.X.screw', 'There is a group of values at this path; name one value in it, e.g. by adding .lead'],
  ['axes.X.drive.0.name', 'There is nothing at axes.X.drive.0.name.'],
  ['__proto__', 'There is nothing at __proto__.'],
  ['', 'There is nothing at .'],
])('%s is refused in words that help', (path, words) => {
  expect(refuse(path)).toContain(words);
});

test.each(['a: b', '# none', '"', '{', '-5, evil: yes', '\n  x: y'])(
  'the value %j stays one value',
  (value) => {
    const tried = tryOut({ 'parts.air-valve.at': value, about: value });
    expect(tried.after.tree.problems).toEqual([]);
    expect(tried.after.kind === 'machine' && tried.after.machine.parts.get('air-valve')?.place).toBe(value);
  },
);

test('nothing to tell is said', () => {
  expect(describeWhatIf(tryOut({ about: 'The same machine.' }))).toContain(
    'Nothing that is computed changes.',
  );
});
