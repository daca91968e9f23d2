import { describe, expect, test } from 'vitest';
import type { FileState } from '../../server/core/world.ts';
import { analyseTexts } from '../support/marked.ts';

/** What is said of a sheet that cannot be had, by what is the matter with it. */

function findingsWith(sheet: string, state?: string | FileState) {
  const machine = `machine: Toy lathe\nparts:\n  panel: { sheet: ${sheet} }\nwiring:\n  - panel.XP -> panel.XD\n`;
  const files = new Map<string, string | FileState>([['lathe.machine.yaml', machine]]);
  if (state !== undefined) files.set(sheet, state);
  return analyseTexts(files).findings.map(({ code, message }) => `${code}: ${message}`);
}

test.each<[string, string | FileState | undefined, RegExp]>([
  ['sheets/panel.part.yaml', undefined, /There is no sheet sheets\/panel\.part\.yaml/],
  ['generic/no-such-thing', undefined, /No sheet of that name ships/],
  ['../elsewhere/panel.part.yaml', undefined, /outside the workspace/],
  ['/etc/passwd', undefined, /outside the workspace/],
  ['panel.part.yaml', { kind: 'unreadable', why: 'reading it is not allowed' }, /reading it is not allowed/],
  [
    'panel.part.yaml',
    { kind: 'too-large', bytes: 50_000_000, most: 1_000_000 },
    /has 50\.0 MB, and a sheet is read up to 1\.0 MB/,
  ],
  ['panel.part.yaml', '', /is no part sheet/],
  ['panel.part.yaml', '{{{{', /is no part sheet/],
  ['lathe.machine.yaml', undefined, /is no part sheet/],
])('%s', (sheet, state, words) => {
  const found = findingsWith(sheet, state);
  expect(found).toHaveLength(1);
  expect(found[0]).toMatch(/^name\/sheet-not-found: /);
  expect(found[0]).toMatch(words);
});

test('one missing sheet of several parts is one mistake', () => {
  const machine = 'machine: Toy lathe\nparts:\n  a: { sheet: x.part.yaml }\n  b: { sheet: ./x.part.yaml }\n';
  const { findings } = analyseTexts(new Map([['lathe.machine.yaml', machine]]));
  expect(findings.map(({ code, related }) => [code, related?.length])).toEqual([['name/sheet-not-found', 1]]);
});

describe('in place of a sheet that is not there', () => {
  const offered = (sheet: string) => {
    const machine = `machine: Toy lathe\nparts:\n  psu: { sheet: ${sheet} }\n`;
    const { findings } = analyseTexts(new Map([['lathe.machine.yaml', machine]]));
    return findings.flatMap(({ fixes = [] }) => fixes.map(({ title }) => title));
  };
  test('the one that it is nearly called is offered alone', () => {
    expect(offered('generic/suply-24v')).toEqual(['Change to generic/supply-24v']);
  });
  test('three that share most of its words are, where none is nearly called so', () => {
    const names = offered('generic/big-mains-supply-for-24v-and-5a');
    expect(names.slice(0, 2)).toEqual(['Change to generic/supply-24v-5a', 'Change to generic/supply-24v']);
    expect(names).toHaveLength(3);
  });
  test('nothing is, where none shares a word', () => {
    expect(offered('generic/qwertz')).toEqual([]);
  });
});
