import { describe, expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';
import { MOST_READ } from '../../../server/core/world.ts';
import { worldOf } from '../../support/world.ts';

/** What is larger than is read or computed is said to be so, once, with its figures; what needs no more works on. */

const FILE = 'a.machine.yaml';
const MOST_THINGS = 10_000;

function open(text: string) {
  const fettle = createFettle(worldOf(new Map([[FILE, text]])));
  const analysis = fettle.analyse(FILE, text);
  const findings = fettle.findings(analysis);
  return { fettle, analysis, findings, codes: findings.map(({ code }) => code) };
}

const partsOf = (count: number, facts = '{ sheet: generic/roller-switch }') =>
  `machine: Toy\nparts:\n${Array.from({ length: count }, (_, i) => `  p${i}: ${facts}\n`).join('')}`;
const linksOf = (count: number) =>
  `wiring:\n${Array.from({ length: count }, (_, i) => `  - p${i}.C1 -> p${i + 1}.C2\n`).join('')}`;

describe('a text', () => {
  test.each([
    ['letters', `machine: ${'x'.repeat(MOST_READ)}`],
    ['lines', '\n'.repeat(100_001)],
    ['commas', `parts: [${'a, '.repeat(100_000)}]`],
    ['parts', partsOf(100_000)],
  ])('of too many %s is not read, and that is all that is said', (_, text) => {
    const { fettle, analysis, codes, findings } = open(text);
    expect(codes).toEqual(['shape/too-large']);
    expect(findings[0]?.message).toContain(String(text.length));
    expect(readTree(text).root).toBeUndefined();
    expect([fettle.format(analysis), fettle.symbols(analysis), fettle.fixAll(analysis)]).toEqual([
      [],
      [],
      [],
    ]);
  });

  test('that is just short enough is read', () => {
    const start = 'machine: ';
    expect(open(start + 'x'.repeat(MOST_READ - start.length)).codes).toEqual([]);
    expect(readTree('\n'.repeat(100_000)).problems).toEqual([]);
  });

  test('becomes readable again by an edit, and unreadable by another', () => {
    const long = `machine: ${'x'.repeat(MOST_READ)}`;
    const fettle = createFettle(worldOf(new Map()));
    const codes = (text: string) => fettle.findings(fettle.analyse(FILE, text)).map(({ code }) => code);
    expect([long, 'machine: Toy\nparts: 7\n', long].map(codes)).toEqual([
      ['shape/too-large'],
      ['shape/wrong-type'],
      ['shape/too-large'],
    ]);
  });
});

describe('a machine', () => {
  const parts = MOST_THINGS / 2;
  const whole = partsOf(parts) + linksOf(parts - 1);

  test('of as many parts and links as are computed is computed', () => {
    const { codes, analysis } = open(`${whole}  - p0.C2 -> mains.N\n`);
    expect(codes).not.toContain('shape/too-large');
    expect(analysis.kind === 'machine' && analysis.machine.parts.size).toBe(parts);
  });

  test('of one more is not, while its form is still checked', () => {
    const { codes, analysis, findings } = open(
      `${whole}  - p0.C2 -> mains.N\n  - p1.C1 -> mains.L\n  - p0 -> nothing\naxes: { X: { travel: 7 } }\n`,
    );
    expect(codes).toEqual(['shape/too-large', 'shape/link', 'unit/missing']);
    expect(findings[0]?.data).toEqual({
      what: 'machine',
      parts,
      links: MOST_THINGS - parts + 1,
      most: MOST_THINGS,
    });
    expect(analysis.values.byAddress.size).toBe(0);
  });

  test('of too many parts keeps its names, its outline and its layout', () => {
    const text = `${partsOf(MOST_THINGS + 1)}axes:\n    X: { drive: p7 }\n`;
    const { fettle, analysis, codes } = open(text);
    expect(codes).toEqual(['shape/too-large']);
    const { sources } = fettle.workspace();
    const source = fettle.read(FILE, text);
    expect(fettle.references(source, text.indexOf('p7:'), sources, true)).toHaveLength(2);
    expect(fettle.symbols(analysis).length).toBeGreaterThan(0);
    expect(fettle.format(analysis).length).toBeGreaterThan(0);
  });
});
