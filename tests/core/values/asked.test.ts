import { describe, expect, test } from 'vitest';
import { readExample } from '../../support/example.ts';
import { analyseExample, fettle } from '../features/example.ts';

const analysis = analyseExample();
const ask = (address: string) => {
  const explained = fettle.explain(analysis, address);
  if (explained.kind !== 'value') throw new Error(explained.lines.join('\n'));
  return explained.value;
};

// The example: 0..10 V and 12 bits for 24000 rpm, 8 s from standstill to the top frequency, 9 s of waiting.
describe('a spindle at any speed', () => {
  test.each([
    ['ramp-time at 9000 rpm', 3, 's'],
    ['wait-margin at 9000 rpm', 6, 's'],
    ['wait-share at 9000 rpm', 200, '%'],
    ['ramp-time at 30000 rpm', 8, 's'], // it never gets there, and stays at its top
    ['signal at 9000 rpm', 3.75, 'V'],
    ['signal at 30000 rpm', 10, 'V'],
    ['signal-count at 9000 rpm', 1536, '1'], // 3/8 of 4096
    ['signal-count at 24000 rpm', 4095, '1'],
    ['signal-count at 0 rpm', 0, '1'],
  ])('%s is %s %s', (name, value, unit) => {
    const asked = ask(`spindle.${name}`);
    expect([asked.value, asked.unit]).toEqual([expect.closeTo(value, 9), unit]);
  });
});

// X: 5000 mm/min = 250/3 mm/s at 500 mm/s2, so each ramp takes 1/6 s and 125/18 mm (textbook, constant acceleration).
describe('an axis over any move', () => {
  test.each([
    ['move-time at 500 mm', 500 / (250 / 3) + 1 / 6],
    ['move-time at 5 mm', 2 * Math.sqrt(5 / 500)],
    ['move-peak at 5 mm', 60 * Math.sqrt(5 * 500)],
    ['move-peak at 500 mm', 5000],
    ['move-time at 0 mm', 0],
  ])('%s', (name, value) => expect(ask(`axes.X.${name}`).value).toBeCloseTo(value, 9));

  test('trapezoid and triangle meet where both ramps just fit', () => {
    const both = 125 / 9;
    const [under, over] = [both * (1 - 1e-9), both * (1 + 1e-9)].map((length) =>
      ask(`axes.X.move-time at ${length} mm`),
    );
    expect(under?.source).toContain('a triangle');
    expect(over?.source).toContain('a trapezoid');
    expect(under?.value).toBeCloseTo(over?.value ?? Number.NaN, 6);
  });

  test('turns a rotary one', () => expect(ask('axes.A.move-peak at 3 deg').unit).toBe('rpm'));
});

test.each([
  ['spindle.wait-margin at 9000', '9000 cannot be asked about'],
  ['spindle.wait-margin at 3 mm', '3 mm cannot be asked about'],
  ['axes.X.move-time at -3 mm', '-3 mm cannot be asked about'],
  ['axes.X.mass at 3 mm', 'There are axes.X.move-time at 3 mm, axes.X.move-peak at 3 mm.'],
  ['axes.Q.move-time at 3 mm', 'Only a spindle and axes can be asked like this.'],
])('%s is answered in words that help', (address, words) =>
  expect(fettle.explain(analysis, address).lines[0]).toContain(words),
);

test('hovers on a speed, a travel and a record say what just that one does', () => {
  const text = readExample();
  const hover = (before: string, word: string) =>
    fettle.hover(analysis, text.indexOf(word, text.indexOf(before)) + 1)?.markdown ?? '';
  expect(hover('least-speed:', '8000 rpm')).toContain(
    '**time to spare of the wait at 8000 rpm of the spindle**',
  );
  expect(hover('- { asked: 12000', '12000 rpm')).toContain(
    '**ramp time at 12000 rpm of the spindle**: `4 s`',
  );
  expect(hover('axis: Y, asked', '800 mm')).toContain('**time of a move at 800 mm of Y**');
});
