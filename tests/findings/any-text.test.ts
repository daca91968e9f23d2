import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { analyseTexts, applyFix, markOf } from '../support/marked.ts';
import { randomFrom } from '../support/random.ts';

/** Any bytes may be in a file: whatever is cut, spliced or typed over, findings have a place and words, and fixes apply. */

const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const sheet = fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8');
const example = readExample();

function examine(text: string, name = 'router.machine.yaml') {
  const texts = new Map([
    [name, text],
    [SHEET, sheet],
  ]);
  const { analysis, findings } = analyseTexts(texts);
  for (const finding of findings) {
    expect(finding.message).not.toMatch(/undefined|NaN|\[object/);
    expect(markOf(analysis, finding).line).toBeGreaterThanOrEqual(0);
    for (const fix of (finding.fixes ?? []).slice(0, 2)) expect(applyFix(analysis, fix)).not.toBe(text);
  }
  return findings;
}

test('the example has nothing to be found but the standing caution', () => {
  expect(examine(example).map(({ code }) => code)).toEqual(['safety/emergency-stop-caution']);
});

test.each(['', ' ', '\n', '# later', '# later\n'])(
  'a text with nothing in it, %j, has a place where it can begin',
  (text) => {
    const [finding, ...others] = examine(text);
    expect([finding?.code, others]).toEqual(['shape/missing-key', []]);
  },
);

test('a text cut off anywhere', () => {
  const random = randomFrom(7);
  for (let round = 0; round < 25; round++) examine(example.slice(0, random.below(example.length)));
});

test('stretches put where they do not belong', () => {
  const random = randomFrom(11);
  for (let round = 0; round < 25; round++) {
    const [from, to] = [random.below(example.length), random.below(example.length)];
    const piece = example.slice(from, from + random.below(200));
    examine(example.slice(0, to) + piece + example.slice(to + random.below(60)));
  }
});

test('a sign typed anywhere', () => {
  const random = randomFrom(13);
  const signs = [
    '{',
    '}',
    '[',
    ']',
    ':',
    ': ',
    '"',
    "'",
    '&a ',
    '*a',
    '\t',
    '\r',
    '\0',
    '\u2028',
    '🛠',
    '- ',
    '#',
    '->',
    ',',
    '..',
    '\n',
  ];
  for (let round = 0; round < 40; round++) {
    const at = random.below(example.length);
    examine(example.slice(0, at) + random.oneOf(signs) + example.slice(at));
  }
});

test('a sheet with a sign typed anywhere', () => {
  const random = randomFrom(17);
  for (let round = 0; round < 30; round++) {
    const at = random.below(sheet.length);
    examine(
      sheet.slice(0, at) + random.oneOf(['{', ']', ':', '"', '*a', '\t', '\n']) + sheet.slice(at),
      'panel.part.yaml',
    );
  }
});
