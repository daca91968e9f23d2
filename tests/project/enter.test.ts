import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const FILE = path.join(import.meta.dirname, '../../client/language-configuration.json');
const { onEnterRules } = JSON.parse(fs.readFileSync(FILE, 'utf8')) as {
  onEnterRules: readonly { beforeText: string; action: { indent: string } }[];
};

/** Whether the editor goes in one step when Enter is pressed behind this. */
const goesIn = (before: string) =>
  onEnterRules.some(
    ({ beforeText, action }) => action.indent === 'indent' && new RegExp(beforeText).test(before),
  );

it.each(['axes:', '  X:  # the carriage', '    set:', '  - cable: W1', '    links:', '  - link:'])(
  'behind “%s” the cursor goes in',
  (before) => expect(goesIn(before)).toBe(true),
);

it.each([
  'machine: Toy',
  '    length: 2 m',
  '  - panel.I1 -> near-x.C1  BN',
  '  - { link: a.b -> c.d, label: 1 }',
  '  panel: { sheet: generic/controller-2-axis }',
  '# a note:',
])('behind “%s” it does not', (before) => expect(goesIn(before)).toBe(false));
