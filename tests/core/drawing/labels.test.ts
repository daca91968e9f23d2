import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../../server/core/summary/drawing/drawing.ts';
import { drawWiring } from '../../../server/core/summary/drawing/drawing-svg.ts';
import { filterDrawing, groupsIn, listViews } from '../../../server/core/summary/drawing/filter.ts';
import { findLines } from '../../../server/core/summary/drawing/lines.ts';
import { groupIntoNets } from '../../../server/core/summary/drawing/nets.ts';
import { arrange, exampleDrawings, makeLarge } from './arranged.ts';
import { boxesIn, clashesOf } from './boxes.ts';
import { shuffled } from './edits.ts';

const drawings = exampleDrawings();

async function clashesIn(drawing: Drawing): Promise<{ labels: number; clashes: readonly string[] }> {
  const { plan, laidOut } = await arrange(drawing);
  const picture = drawWiring(plan, laidOut);
  const labels = boxesIn(picture, 'wire-label').filter(({ text }) => text !== '');
  return { labels: labels.length, clashes: clashesOf(labels, boxesIn(picture, 'part')) };
}

describe.each(drawings)('the drawing of %s', (_, drawing) => {
  it.each(listViews(drawing).map(({ title }) => title))(
    'has no labels that meet, nor labels on blocks: %s',
    async (title) => {
      const shown = listViews(drawing).find((view) => view.title === title)?.drawing ?? drawing;
      const { labels, clashes } = await clashesIn(shown);
      expect(labels).toBeGreaterThan(0);
      expect(clashes).toEqual([]);
    },
  );

  it('is split into groups without loss', () => {
    const split = groupsIn(drawing).flatMap(([group]) =>
      filterDrawing(drawing, group).links.map(({ id }) => id),
    );
    expect(split.sort()).toEqual(drawing.links.map(({ id }) => id).sort());
  });

  it('runs every wire from terminal to terminal by level and upright legs that pass through no part', async () => {
    const { plan, laidOut } = await arrange(drawing);
    const blocks = boxesIn(drawWiring(plan, laidOut), 'part');
    const lines = findLines(plan, laidOut);
    expect(lines).toHaveLength(plan.courses.length);
    for (const { points, link } of lines) {
      for (const [leg, b] of points.slice(1).entries()) {
        const a = points[leg] ?? b;
        expect(a.x === b.x || a.y === b.y, `${link.id} runs aslant`).toBe(true);
        const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
        const [top, bottom] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
        const met = blocks.filter(
          (block) =>
            left < block.right - 0.5 &&
            right > block.left + 0.5 &&
            top < block.bottom - 0.5 &&
            bottom > block.top + 0.5,
        );
        expect(
          met.map(({ text }) => text),
          link.id,
        ).toEqual([]);
      }
    }
  });

  it('never lets two nets run along one another, and hops wherever they cross', async () => {
    const { plan, laidOut } = await arrange(drawing);
    const nets = groupIntoNets(findLines(plan, laidOut));
    const legs = nets.flatMap((net, number) =>
      net.flatMap(({ points }) => points.slice(1).map((b, leg) => ({ a: points[leg] ?? b, b, net: number }))),
    );
    const shared = legs.filter(({ a, b, net }) =>
      legs.some((other) => other.net > net && runAlong(a, b, other.a, other.b)),
    );
    expect(shared).toEqual([]);
    const svg = JSON.stringify(drawWiring(plan, laidOut));
    expect(svg).toMatch(/A3\.6 3\.6/);
  });
});

type Place = { readonly x: number; readonly y: number };

/** True when two legs lie on one line and share more than a point of it. */
function runAlong(a: Place, b: Place, c: Place, d: Place): boolean {
  const over = (from: number, to: number, start: number, end: number) =>
    Math.min(Math.max(from, to), Math.max(start, end)) - Math.max(Math.min(from, to), Math.min(start, end)) >
    1;
  const level = a.y === b.y && c.y === d.y && Math.abs(a.y - c.y) < 1;
  const upright = a.x === b.x && c.x === d.x && Math.abs(a.x - c.x) < 1;
  return (level && over(a.x, b.x, c.x, d.x)) || (upright && over(a.y, b.y, c.y, d.y));
}

describe('a large machine', () => {
  it('of 60 parts and 300 links is drawn whole; the benchmark says how fast', async () => {
    const drawing = makeLarge();
    expect([drawing.parts.length, drawing.links.length]).toEqual([60, 300]);
    const { plan, laidOut } = await arrange(drawing);
    expect(boxesIn(drawWiring(plan, laidOut), 'part')).toHaveLength(60);
  });

  it.each([1, 2, 3])('has no labels that meet when it is wired at random: %i', async (seed) => {
    const drawing = shuffled(makeLarge(), seed);
    expect([drawing.parts.length, drawing.links.length]).toEqual([60, 300]);
    const { labels, clashes } = await clashesIn(drawing);
    expect(labels).toBeGreaterThan(200);
    expect(clashes).toEqual([]);
  });
});
