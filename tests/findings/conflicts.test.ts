import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/core/analysis.ts';
import { findAll } from '../../server/core/findings/find.ts';
import { createTrees } from '../../server/core/model/trees.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { applyFix } from '../support/marked.ts';
import { worldOf } from '../support/world.ts';

const FILE = 'toy.machine.yaml';

function findIn(text: string) {
  const analysis = analyse(FILE, text, worldOf(new Map([[FILE, text]])), createTrees());
  return findAll(analysis).map((finding) => {
    const range = rangeOf(analysis.tree, finding.at) ?? { from: 0, to: 0 };
    return { ...finding, fixes: finding.fixes ?? [], shown: text.slice(range.from, range.to), analysis };
  });
}

const conflict = (ours: string, theirs: string, base = '') =>
  `machine: Toy\n<<<<<<< HEAD\n${ours}${base}=======\n${theirs}>>>>>>> branch\nabout: A lathe\n`;

test('a conflict is one finding when both versions are right', () => {
  for (const base of ['', '||||||| base\nrevison: 3\n'])
    expect(findIn(conflict('revision: 4\n', 'revision: 5\n', base)).map(({ code }) => code)).toEqual([
      'yaml/conflict-markers',
    ]);
});

test('keeping one version leaves nothing of the other, nor of what both came from', () => {
  for (const base of ['', '||||||| base\nrevision: 3\n']) {
    const [found] = findIn(conflict('revision: 4\n', 'revision: 5\n', base));
    expect(found?.fixes.map((fix) => applyFix(found.analysis, fix))).toEqual([
      'machine: Toy\nrevision: 4\nabout: A lathe\n',
      'machine: Toy\nrevision: 5\nabout: A lathe\n',
    ]);
  }
});

test('keeping one version leaves a second conflict as it is', () => {
  const second =
    '<<<<<<< HEAD\nabout: A mill\n||||||| base\nabout: A saw\n=======\nabout: A lathe\n>>>>>>> branch\n';
  const [found] = findIn(conflict('revision: 4\n', 'revision: 5\n').replace('about: A lathe\n', second));
  expect(found?.fixes.map((fix) => applyFix(found.analysis, fix))).toEqual([
    `machine: Toy\nrevision: 4\n${second}`,
    `machine: Toy\nrevision: 5\n${second}`,
  ]);
});

describe('what is wrong with the second version is said at its place', () => {
  const found = findIn(conflict('revision: 4\n', 'revison: 5\n'));

  test('and nothing besides', () => {
    expect(found.map(({ code }) => code)).toEqual(['yaml/conflict-markers', 'shape/unknown-key']);
    expect(found[1]).toMatchObject({
      shown: 'revison',
      message: expect.stringMatching(/^With the second version of the conflict: /),
    });
  });

  test('with a fix that edits it there', () => {
    const [edit] = found[1]?.fixes[0]?.edits ?? [];
    const tree = found[1]?.analysis.tree;
    const range = edit && tree && rangeOf(tree, edit.at);
    expect([range && tree.text.slice(range.from, range.to), edit?.text]).toEqual(['revison', 'revision']);
  });
});

test('what is wrong with the first version is said as ever', () => {
  const found = findIn(conflict('revison: 4\n', 'revision: 5\n'));
  expect(found.map(({ code, shown }) => [code, shown])).toEqual([
    ['yaml/conflict-markers', '<<<<<<< HEAD'],
    ['shape/unknown-key', 'revison'],
  ]);
});

test('what is wrong in both, and what is wrong outside, is said once', () => {
  const text = `${conflict('parts:\n  psu: { sheet: generic/supply-24v, set: { output-voltage: 24 V } }\n', 'parts:\n  psu: { sheet: generic/supply-24v, set: { output-voltage: 25 V } }\n')}revison: 1\n`;
  expect(findIn(text).filter(({ code }) => code === 'shape/unknown-key')).toHaveLength(1);
});

test('markers that are never closed or stand in odd places are survived', () => {
  for (const text of [
    '<<<<<<< a\nmachine: Toy\n',
    'machine: Toy\n<<<<<<< a\n=======\n',
    '<<<<<<< a\n<<<<<<< b\n=======\n=======\n>>>>>>> c\n>>>>>>> d\n',
    'machine: Toy\r\n<<<<<<< a\r\nrevision: 1\r\n=======\r\nrevision: x\r\n>>>>>>> b\r\n',
  ])
    expect(findIn(text).filter(({ code }) => code === 'yaml/conflict-markers')).toHaveLength(1);
});
