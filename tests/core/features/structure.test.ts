import { describe, expect, test } from 'vitest';
import { inEveryWay } from '../../support/places.ts';
import { analyseExample, fettle } from './example.ts';

/** The marked stretches are what the cursor's selection grows through, from the innermost on. */
function checkSelections(marked: string, grown: readonly string[]): void {
  inEveryWay(marked, ({ fettle: product, source, offset }, way) => {
    const texts = product
      .selections(source, offset)
      .map(({ from, to }) => source.tree.text.slice(from, to).replaceAll('\r\n', '\n'));
    expect(texts.slice(0, grown.length), way).toEqual(grown);
    expect(texts.at(-1)?.length, way).toBe(source.tree.text.replaceAll('\r\n', '\n').length);
  });
}

describe('selections', () => {
  test('grow from a terminal to its link, its item, its section', () =>
    checkSelections(
      'machine: m\nwiring:\n  - { link: "panel.X§P -> drive.PUL-  BN", label: W1 }\n  - a.b -> c.d\n',
      [
        'XP',
        'panel.XP',
        'panel.XP -> drive.PUL-  BN',
        '"panel.XP -> drive.PUL-  BN"',
        'link: "panel.XP -> drive.PUL-  BN"',
        '{ link: "panel.XP -> drive.PUL-  BN", label: W1 }',
      ],
    ));
  test('grow from a figure to its quantity, its key, its axis', () =>
    checkSelections('axes:\n  X: # a comment\n    travel: 6§40 mm\n    mass: 24 kg\n  Y: {}\n', [
      '640',
      '640 mm',
      'travel: 640 mm',
      'travel: 640 mm\n    mass: 24 kg',
      'X: # a comment\n    travel: 640 mm\n    mass: 24 kg',
    ]));
  test('are the whole text outside of everything', () => checkSelections('machine: m\n\n§\n# end\n', []));
});

/** Lines that fold, `first-last` from 1. */
function checkFolds(marked: string, lines: readonly string[]): void {
  inEveryWay(`§${marked}`, ({ fettle: product, source }, way) => {
    const lineOf = (offset: number) => source.tree.text.slice(0, offset).split('\n').length;
    const folds = product
      .folds(source)
      .map(({ from, to, kind }) => `${lineOf(from)}-${lineOf(to)}${kind === 'comment' ? ' #' : ''}`);
    expect(folds, way).toEqual(lines);
  });
}

describe('folds', () => {
  test('are sections, entries, brackets over several lines, and comments', () =>
    checkFolds(
      `machine: m
# one
# two

parts:
  a: { sheet: b }
  c:
    sheet: d
    set: {
      e: 1,
    }

wiring:
  - cable: K1
    links:
      - a.b -> c.d
      - a.e -> c.f
about: x
`,
      ['2-3 #', '5-11', '7-11', '9-11', '13-17', '14-17', '15-17'],
    ));
  test('of the example lie inside one another or apart', () => {
    const folds = fettle.folds(analyseExample());
    expect(folds.length).toBeGreaterThan(10);
    for (const [index, a] of folds.entries())
      for (const b of folds.slice(index + 1)) expect(b.from >= a.to || b.to <= a.to).toBe(true);
  });
});
