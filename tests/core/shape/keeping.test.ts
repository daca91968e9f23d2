import { expect, test } from 'vitest';
import { checkShape } from '../../../server/core/shape/check.ts';
import { machineShape } from '../../../server/core/shape/shapes.ts';
import { rangeOf, readTree } from '../../../server/core/syntax/tree.ts';

const PARTS = 4000;
const lines = Array.from(
  { length: PARTS },
  (_, index) => `  part-${index}: { sheet: generic/x, st: { a: 1 } }`,
);

test('what did not change is not checked again', () => {
  const before = readTree(['machine: Slate saw', 'parts:', ...lines, ''].join('\n'));
  const problems = checkShape(before.root, machineShape);
  expect(problems.length).toBe(PARTS);

  const edited = [...lines];
  edited[17] = '  part-17: { sheet: generic/y }';
  const after = readTree(['machine: Slate saw', 'parts:', ...edited, ''].join('\n'), before);
  const again = checkShape(after.root, machineShape);
  const kept = new Set(problems);
  expect(again.length).toBe(PARTS - 1);
  expect(again.filter((problem) => !kept.has(problem))).toEqual([]);
});

test('checking the same tree again gives the same list', () => {
  const tree = readTree('machine: Slate saw\nparts:\n  a: { shet: x }\n');
  expect(checkShape(tree.root, machineShape)).toBe(checkShape(tree.root, machineShape));
});

// The nearest key was once looked for anew over all keys for each key: half a minute for this text.
test('very many unknown keys are looked at a few times each', () => {
  const count = 20_000;
  const text = ['machine: Slate saw', ...Array.from({ length: count }, (_, index) => `key${index}: 1`)].join(
    '\n',
  );
  const { root } = readTree(text);
  if (root?.kind !== 'map') throw new Error('the text is a map');
  let looks = 0;
  const pairs = new Proxy(root.pairs, {
    get: (target, key) => {
      looks += 1;
      return Reflect.get(target, key);
    },
  });
  expect(checkShape({ ...root, pairs }, machineShape).length).toBe(count);
  expect(looks).toBeGreaterThan(count);
  expect(looks).toBeLessThan(20 * count);
});

test('what is said at a key is said at the key that stands there now', () => {
  // Two keys of one word, and something changed before and behind the second: it takes the block that was the first one's.
  const text = 'machine: Slate saw\nwiring:\n  a: 1\nwiring:\n  - a.b -> c.d\n';
  const before = readTree(text);
  expect(checkShape(before.root, machineShape)).toMatchObject([{ code: 'shape/wrong-type' }]);
  const after = readTree(text.replace('  a: 1', '\n  a: 1').replace('c.d', 'c.e'), before);
  const places = checkShape(after.root, machineShape).map(({ at }) => rangeOf(after, at)?.from);
  expect(places).toEqual([text.indexOf('wiring')]);
});
