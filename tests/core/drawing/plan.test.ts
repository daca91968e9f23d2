import { describe, expect, it } from 'vitest';
import type { DrawnLink, DrawnPart } from '../../../server/core/summary/drawing/drawing.ts';
import { toLayoutGraph } from '../../../server/core/summary/drawing/elk-graph.ts';
import { joinLinks } from '../../../server/core/summary/drawing/ends.ts';
import { groupIntoNets } from '../../../server/core/summary/drawing/nets.ts';
import { planDrawing } from '../../../server/core/summary/drawing/plan.ts';
import { chooseColumns } from '../../../server/core/summary/drawing/ranks.ts';
import { drawPath } from '../../../server/core/summary/drawing/route.ts';
import { layersOf, strokeOf } from '../../../server/core/summary/drawing/stroke.ts';
import { estimateWidth, fitText } from '../../../server/core/summary/drawing/text-width.ts';

function part(name: string, partClass: string, terminals: string): DrawnPart {
  return {
    id: `part:${name}`,
    name,
    title: partClass,
    partClass,
    terminals: terminals.split(' ').map((text) => {
      const [group = '', terminal = ''] = text.includes('/') ? text.split('/') : ['', text];
      return { id: `terminal:${name}.${terminal}`, name: terminal, group, wired: true };
    }),
  };
}

function link(from: string, to: string, kind: DrawnLink['kind'] = 'power'): DrawnLink {
  return { id: `${from} ${to}`, from: `terminal:${from}`, to: `terminal:${to}`, kind };
}

const chain = {
  parts: [
    part('motor', 'motor', 'A B'),
    part('fuse', 'fuse', 'IN OUT'),
    part('bar', 'terminal-strip', '1 2 3'),
    part('earth', 'terminal-strip', '1 2'),
    part('drive', 'drive', 'power/V power/PE motor/A motor/B'),
    part('supply', 'supply', 'out/V in/L out/PE'),
  ],
  links: [
    link('drive.V', 'fuse.OUT'), // written against the way of the current
    link('bar.2', 'fuse.IN'),
    link('supply.V', 'bar.1'),
    link('drive.A', 'motor.A', 'motor'),
    link('motor.B', 'drive.B', 'motor'),
    link('earth.1', 'drive.PE', 'earth'),
    link('earth.2', 'supply.PE', 'earth'),
    link('nowhere.1', 'drive.V'),
  ],
};

describe('the plan of a drawing', () => {
  it('puts what stands in the way of others in line between them', () => {
    const [motor, fuse, bar, earth, drive, supply] = chooseColumns(chain, joinLinks(chain));
    const line = [supply, bar, fuse, drive, motor].map(Number);
    expect(line).toEqual(line.toSorted((a, b) => a - b));
    expect(new Set(line).size).toBe(5);
    expect(earth).toBe(Math.round((Number(supply) + Number(drive)) / 2));
  });

  it('runs every edge to the right and leaves out links that end nowhere', () => {
    const plan = planDrawing(chain);
    const graph = toLayoutGraph(plan);
    expect(graph.edges).toHaveLength(5); // earth is drawn by its ends
    const rankOf = (port = '') => plan.columns[Number(/^n(\d+)t/.exec(port)?.[1])] ?? Number.NaN;
    for (const { sources, targets } of graph.edges) {
      expect(rankOf(sources[0])).toBeLessThan(rankOf(targets[0]));
    }
  });

  it('sets terminals towards what they join, in printed order, strips right through', () => {
    const { blocks } = planDrawing(chain);
    const sides = (number: number) => blocks[number]?.rows.map(({ side }) => side).join(' ');
    expect(sides(4)).toBe('left left right right');
    expect(sides(0)).toBe('left left');
    expect(sides(2)).toBe('both both both');
    for (const block of blocks) {
      for (const side of ['left', 'right', 'both'] as const) {
        const rows = block.rows.filter((row) => row.side === side);
        expect(rows.map(({ y }) => y)).toEqual(rows.map(({ y }) => y).toSorted((a, b) => a - b));
        expect(rows.map(({ terminal }) => terminal)).toEqual(
          rows.map(({ terminal }) => terminal).toSorted((a, b) => a - b),
        );
      }
      for (const { y } of block.rows) expect(y).toBeLessThan(block.height);
    }
  });

  it('is the same for the same drawing', () => {
    expect(toLayoutGraph(planDrawing(structuredClone(chain)))).toEqual(toLayoutGraph(planDrawing(chain)));
  });

  it('takes no links, no parts and links within one part', () => {
    expect(toLayoutGraph(planDrawing({ parts: [], links: [] })).children).toEqual([]);
    const alone = { parts: [part('drive', 'drive', 'A B')], links: [link('drive.A', 'drive.B')] };
    expect(toLayoutGraph(planDrawing(alone)).edges).toHaveLength(1);
  });
});

describe('nets', () => {
  it('gather links that share terminals, directly or through others', () => {
    const links = [link('a.1', 'b.1'), link('c.1', 'd.1'), link('e.1', 'b.1'), link('d.1', 'd.2')];
    const nets = groupIntoNets(links.map((each) => ({ link: each })));
    expect(nets.map((net) => net.map((each) => links.indexOf(each.link)))).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });
});

describe('lines', () => {
  it('take the colours of the wire, or else tell its kind by dashes', () => {
    const base = link('a.1', 'b.1', 'earth');
    expect(layersOf(strokeOf({ ...base, colour: 'GNYE' }))).toEqual([
      { shade: '#1f8a3b', width: 2.6 },
      { shade: '#f2cf14', width: 2.6, dash: '7 7' },
    ]);
    expect(strokeOf({ ...base, colour: 'no colour' })).toEqual(strokeOf(base));
    expect(strokeOf(base)).toMatchObject({ shades: [], dash: expect.any(String) });
    expect(strokeOf({ ...base, kind: 'signal' })).not.toHaveProperty('dash');
  });

  it('round their corners, but never by more than half of a leg', () => {
    const at = (x: number, y: number) => ({ x, y });
    expect(drawPath([])).toBe('');
    expect(drawPath([at(0, 0), at(20, 0)])).toBe('M0 0L20 0');
    expect(drawPath([at(0, 0), at(20, 0), at(20, 20)])).toBe('M0 0L15 0Q20 0 20 5L20 20');
    expect(drawPath([at(0, 0), at(4, 0), at(4, 20)])).toBe('M0 0L2 0Q4 0 4 2L4 20');
    expect(drawPath([at(0, 0), at(0, 0), at(4, 0)])).not.toMatch(/NaN/);
  });
});

describe('texts', () => {
  it('are cut with an ellipsis when they are too wide', () => {
    expect(fitText('drive-x', 10, 100)).toBe('drive-x');
    const cut = fitText('a very long name of a part', 10, 60);
    expect(cut).toMatch(/^a very.*…$/);
    expect(estimateWidth(cut, 10)).toBeLessThanOrEqual(60);
    expect(estimateWidth('漢字', 10)).toBe(20);
  });
});
