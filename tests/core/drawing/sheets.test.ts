import { describe, expect, it } from 'vitest';
import type { Drawing, DrawnPart } from '../../../server/core/summary/drawing/drawing.ts';
import { drawWiring } from '../../../server/core/summary/drawing/drawing-svg.ts';
import { fitsOnSheet, orderByPages } from '../../../server/core/summary/drawing/paper.ts';
import { cutIntoSheets, fitOnSheet, type Sheet } from '../../../server/core/summary/drawing/sheets.ts';
import { makeFigures } from '../../../server/core/summary/export/figures.ts';
import { exampleDrawings, layOutAll, makeLarge } from './arranged.ts';
import { boxesIn, clashesOf } from './boxes.ts';

const linksOf = (sheets: readonly Sheet[]) =>
  sheets.flatMap(({ plan }) => plan.drawing.links.map(({ id }) => id)).sort();

describe.each(exampleDrawings())('the sheets of %s', (_, drawing) => {
  it('show every link on one sheet, whole, with letters that can be read', async () => {
    const sheets = await layOutAll(cutIntoSheets(drawing));
    expect(linksOf(sheets)).toEqual(drawing.links.map(({ id }) => id).sort());
    for (const { plan, laidOut } of sheets) {
      expect(fitsOnSheet(laidOut)).toBe(true);
      expect(plan.links).toHaveLength(plan.drawing.links.length);
    }
  });

  it('have no labels that meet, nor labels on blocks', async () => {
    for (const { plan, laidOut } of await layOutAll(cutIntoSheets(drawing))) {
      const picture = drawWiring(plan, laidOut);
      const labels = boxesIn(picture, 'wire-label').filter(({ text }) => text !== '');
      expect(labels.length).toBeGreaterThan(0);
      expect(clashesOf(labels, boxesIn(picture, 'part'))).toEqual([]);
    }
  });

  it('say of each part on which other sheets it goes on', async () => {
    const figures = (await layOutAll(makeFigures(drawing))).filter(({ medium }) => medium === 'paper');
    const partsOf = figures.map(({ svg }) => boxesIn(svg, 'part').map(({ text }) => text));
    for (const [index, { title, note = '' }] of figures.entries()) {
      expect(title).toMatch(new RegExp(`^Sheet ${index + 1}: `));
      const goesOn = (partsOf[index] ?? []).flatMap((name) => {
        const others = partsOf.flatMap((parts, other) =>
          other !== index && parts.includes(name) ? [other + 1] : [],
        );
        return others.length > 0 ? [`${name} ${others.join(', ')}`] : [];
      });
      expect(note).toBe(goesOn.length > 0 ? `More wires of these parts, by sheet: ${goesOn.join('; ')}` : '');
    }
  });
});

describe('what belongs together', () => {
  it('stands on one sheet: a drive with its motor, a sensor with its three wires', async () => {
    const [, drawing] = exampleDrawings().find(([name]) => name === 'gantry-router') ?? [];
    const axes = drawing?.links.filter(({ group }) => group === 'axes') ?? [];
    const inputs = drawing?.links.filter(({ group }) => group === 'inputs') ?? [];
    const countOf = async (links: Drawing['links'], name: string) => {
      const sheets = await layOutAll(cutIntoSheets({ parts: drawing?.parts ?? [], links }));
      expect(sheets.length).toBeGreaterThan(1);
      return sheets.filter(({ plan }) => plan.drawing.parts.some((part) => part.name === name)).length;
    };
    for (const drive of ['drive-x', 'drive-y1', 'drive-y2', 'drive-z', 'drive-a'])
      expect(await countOf(axes, drive), drive).toBe(1);
    for (const sensor of ['near-x', 'home-x', 'home-y', 'wheel', 'probe'])
      expect(await countOf(inputs, sensor), sensor).toBe(1);
  });
});

describe('a large machine', () => {
  it('of 60 parts and 300 links is cut without loss', async () => {
    const drawing = makeLarge();
    const sheets = await layOutAll(cutIntoSheets(drawing));
    expect(linksOf(sheets)).toEqual(drawing.links.map(({ id }) => id).sort());
    expect(sheets.filter(({ laidOut }) => !fitsOnSheet(laidOut))).toEqual([]);
  });
});

/** Two parts with so many wires between them that no sheet holds them all. */
function makeWide(count: number, name: string): Drawing {
  const part = (id: string): DrawnPart => ({
    id: `part:${id}`,
    name: id,
    title: 'terminal strip',
    partClass: 'strip',
    terminals: Array.from({ length: count }, (_, index) => ({
      id: `terminal:${id}.${index}`,
      name: `${index}`,
      group: '',
      wired: true,
    })),
  });
  return {
    parts: [part(`${name}a`), part(`${name}b`)],
    links: Array.from({ length: count }, (_, index) => ({
      id: `link:${index}`,
      from: `terminal:${name}a.${index}`,
      to: `terminal:${name}b.${index}`,
      kind: 'signal' as const,
    })),
  };
}

describe('what is too much for one sheet', () => {
  it('is taken apart wire by wire where two parts are joined by very many', async () => {
    const drawing = makeWide(100, 'strip-');
    expect(await layOutAll(fitOnSheet(drawing))).toBeUndefined();
    const sheets = await layOutAll(cutIntoSheets(drawing));
    expect(sheets.length).toBeGreaterThan(1);
    expect(linksOf(sheets)).toEqual(drawing.links.map(({ id }) => id).sort());
    for (const { laidOut } of sheets) expect(fitsOnSheet(laidOut)).toBe(true);
  });

  it('is a sheet at any size when it is a single wire', async () => {
    const drawing = makeWide(1, 'a-name-that-nobody-would-write-'.repeat(20));
    const [sheet, ...others] = await layOutAll(cutIntoSheets(drawing));
    expect(others).toEqual([]);
    expect(sheet?.plan.drawing.links).toHaveLength(1);
  });

  it('is printed whole besides where it is little', async () => {
    const small = makeWide(3, 'strip-');
    const [power, signal] = ['power', 'inputs'].map((group) =>
      small.links.map((link) => ({ ...link, id: `${group}:${link.id}`, group: group as 'power' | 'inputs' })),
    );
    const drawing = { ...small, links: [...(power ?? []), ...(signal ?? [])] };
    const figures = await layOutAll(makeFigures(drawing));
    const printed = figures.filter(({ medium }) => medium === 'paper').map(({ title }) => title);
    expect(printed).toEqual(['Everything', 'Sheet 1: Power', 'Sheet 2: Inputs']);
  });
});

describe('the order of the sheets', () => {
  const sheet = (name: string, height: number) => ({ name, laidOut: { width: 900, height } });
  const namesOf = (sheets: ReturnType<typeof sheet>[]) => orderByPages(sheets).map(({ name }) => name);

  it('puts what is flat on a page that has room for it', () => {
    expect(namesOf([sheet('a', 200), sheet('b', 550), sheet('c', 200), sheet('d', 550)])).toEqual([
      'a',
      'c',
      'b',
      'd',
    ]);
  });

  it('is that of the text where nothing can share a page', () => {
    expect(namesOf([sheet('a', 550), sheet('b', 400), sheet('c', 500)])).toEqual(['a', 'b', 'c']);
  });
});
