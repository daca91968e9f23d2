import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { analyseTexts } from '../support/marked.ts';

/* Where no feed is low enough for the motor of an axis, the figure that takes the most of its torque is shown. */

const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const sheet = fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8');

/** The places that are said to ask too much of a motor, once a figure of an axis is changed. */
function shown(axis: string, key: string, value: string): readonly string[] {
  const section = new RegExp(
    `(\\n  ${axis}: (?:.*\\n    )[\\s\\S]*?\\n    ${key}: +)[^#\\n]*?( *(?:#.*)?\\n)`,
  );
  const text = readExample();
  const changed = text.replace(section, `$1${value}$2`);
  expect(changed).not.toBe(text);
  const { analysis, findings } = analyseTexts(
    new Map([
      ['router.machine.yaml', changed],
      [SHEET, sheet],
    ]),
  );
  return findings
    .filter(({ code }) => code === 'motion/torque-too-small')
    .map(({ at }) => {
      const range = rangeOf(analysis.tree, at);
      return range ? analysis.tree.text.slice(range.from, range.to) : '';
    });
}

it.each([
  ['Z', 'force', '80000 N'],
  ['Z', 'mass', '5000 kg'],
  ['Z', 'acceleration', '40000 mm/s2'],
  ['A', 'torque', '900 N.m'],
  ['A', 'acceleration', '200000 deg/s2'],
])('of axis %s, the %s of %s', (axis, key, value) => {
  expect(shown(axis, key, value)).toEqual([value]);
});
