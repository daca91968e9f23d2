import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import type { Drawing, DrawnLink } from '../../../server/core/summary/drawing/drawing.ts';
import { drawWiring, placeParts } from '../../../server/core/summary/drawing/drawing-svg.ts';
import { planDrawing, toLayoutGraph } from '../../../server/core/summary/drawing/elk-graph.ts';
import { filterDrawing, groupsIn, listViews } from '../../../server/core/summary/drawing/filter.ts';
import type { LaidOut, LayoutGraph } from '../../../server/core/summary/drawing/layout.ts';
import { estimateWidth } from '../../../server/core/summary/drawing/text-width.ts';
import type { View, ViewElement } from '../../../server/core/summary/view.ts';
import { worldOf } from '../../support/world.ts';

interface Elk {
  readonly layout: (graph: LayoutGraph) => Promise<LaidOut>;
}
const Layouter = createRequire(import.meta.url)('elkjs') as new () => Elk;
const elk = new Layouter();
const layOut = (graph: LayoutGraph) => elk.layout(structuredClone(graph));

const EXAMPLES = new URL('../../../examples/', import.meta.url);

function drawingOf(name: string): Drawing {
  const folder = new URL(`${name}/`, EXAMPLES);
  const files = new Map(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.yaml'))
      .map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]),
  );
  const fettle = createFettle(worldOf(files));
  const machine = [...files.keys()].find((file) => file.endsWith('.machine.yaml')) ?? '';
  const item = fettle
    .summary(fettle.analyse(machine, files.get(machine) ?? ''))
    .items.find(({ kind }) => kind === 'drawing');
  return item?.kind === 'drawing' ? item.drawing : { parts: [], links: [] };
}

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What a text element says. */
const wordsIn = (children: readonly View[]): string =>
  children.filter((child) => typeof child === 'string').join('');

/** The boxes of the labels on wires and of the blocks, by estimate: letters are rather narrower than that. */
function boxesIn(view: View, wanted: string): Box[] {
  if (typeof view === 'string') return [];
  const inner = view.children.flatMap((child) => boxesIn(child, wanted));
  return view.attributes.class?.split(' ').includes(wanted) ? [...inner, boxOf(view)] : inner;
}

function boxOf({ tag, attributes, children }: ViewElement): Box {
  const number = (name: string) => Number(attributes[name] ?? 0);
  if (tag === 'g') {
    const [x = 0, y = 0] = (attributes.transform?.match(/-?[\d.]+/g) ?? []).map(Number);
    const block = children.find((child) => typeof child !== 'string' && child.attributes.class === 'block');
    const size = (name: string) => (typeof block === 'object' ? Number(block.attributes[name]) : 0);
    return {
      text: attributes['data-name'] ?? '',
      left: x,
      right: x + size('width'),
      top: y,
      bottom: y + size('height'),
    };
  }
  const text = wordsIn(children);
  const width = estimateWidth(text, number('font-size')) * 0.92;
  const left = attributes['text-anchor'] === 'end' ? number('x') - width : number('x');
  return {
    text,
    left,
    right: left + width,
    top: number('y') - number('font-size') * 0.78,
    bottom: number('y'),
  };
}

const meet = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

describe.each(readdirSync(EXAMPLES))('the drawing of %s', (name) => {
  const drawing = drawingOf(name);

  it.each(listViews(drawing).map(({ title }) => title))(
    'has no labels that meet, nor labels on blocks: %s',
    async (title) => {
      const shown = listViews(drawing).find((view) => view.title === title)?.drawing ?? drawing;
      const plan = planDrawing(shown);
      const picture = drawWiring(plan, await layOut(toLayoutGraph(plan)));
      const labels = boxesIn(picture, 'wire-label').filter(({ text }) => text !== '');
      const blocks = boxesIn(picture, 'part');
      expect(labels.length).toBeGreaterThan(0);
      const clashes = labels.flatMap((label, index) =>
        [
          ...labels.slice(index + 1).filter((other) => meet(label, other)),
          ...blocks.filter((block) => meet(label, block)),
        ].map((other) => `${label.text} / ${other.text}`),
      );
      expect(clashes).toEqual([]);
    },
  );

  it('is split into groups without loss', () => {
    const split = groupsIn(drawing).flatMap(([group]) =>
      filterDrawing(drawing, group).links.map(({ id }) => id),
    );
    expect(split.sort()).toEqual(drawing.links.map(({ id }) => id).sort());
  });
});

describe('stability', () => {
  it('keeps every part in its place when a label, a colour or a word changes', async () => {
    const before = drawingOf('gantry-router');
    const relabel = (link: DrawnLink): DrawnLink =>
      link.label === '207' ? { ...link, label: '208b', colour: 'RD' } : link;
    const after: Drawing = {
      ...before,
      links: before.links.map(relabel),
      parts: before.parts.map((part) =>
        part.name === 'probe' ? { ...part, title: `${part.title}s` } : part,
      ),
    };
    const places = async (drawing: Drawing) => {
      const plan = planDrawing(drawing);
      return [...placeParts(plan, await layOut(toLayoutGraph(plan)))];
    };
    expect(await places(after)).toEqual(await places(before));
  });
});

describe('a large machine', () => {
  it('of 60 parts and 300 links is laid out within two seconds', async () => {
    const drawing = makeLarge();
    expect([drawing.parts.length, drawing.links.length]).toEqual([60, 300]);
    const plan = planDrawing(drawing);
    await layOut(toLayoutGraph(planDrawing({ parts: [], links: [] }))); // loads the library
    const started = performance.now();
    const laidOut = await layOut(toLayoutGraph(plan));
    const picture = drawWiring(plan, laidOut);
    expect(performance.now() - started).toBeLessThan(2000);
    expect(boxesIn(picture, 'part')).toHaveLength(60);
  });
});

/** Twelve drives with their motors and switches around one controller, fed by bars. */
function makeLarge(): Drawing {
  const links: DrawnLink[] = [];
  const wired = new Map<string, Set<string>>();
  const join = (from: string, to: string, kind: DrawnLink['kind']) => {
    for (const end of [from, to]) {
      const [part = '', terminal = ''] = end.split('.');
      const there = wired.get(part) ?? new Set<string>();
      wired.set(part, there.add(terminal));
    }
    links.push({
      id: `link:${links.length + 1}`,
      from: `terminal:${from}`,
      to: `terminal:${to}`,
      kind,
      label: `W${links.length + 1}`,
    });
  };
  for (let n = 1; n <= 12; n++) {
    for (const terminal of ['A+', 'A-', 'B+', 'B-'])
      join(`drive${n}.${terminal}`, `motor${n}.${terminal}`, 'motor');
    for (const terminal of ['PUL', 'DIR', 'ENA', 'ALM', 'COM'])
      join(`panel.${terminal}${n}`, `drive${n}.${terminal}`, 'signal');
    join(`bar${(n % 3) + 1}.${n}`, `drive${n}.V+`, 'power');
    join(`bar${(n % 3) + 4}.${n}`, `drive${n}.V-`, 'power');
    join(`earth.${n}`, `drive${n}.PE`, 'earth');
    for (const end of ['near', 'far']) {
      join(`sense.${end}${n}`, `${end}${n}.1`, 'signal');
      join(`${end}${n}.2`, `panel.${end}${n}`, 'signal');
    }
    join(`panel.X${n}`, `sense.X${n}`, 'signal');
    join(`earth.M${n}`, `motor${n}.PE`, 'earth');
    join(`drive${n}.S`, `earth.S${n}`, 'earth');
    join(`panel.T${n}`, `drive${n}.T`, 'signal');
    join(`psu.V${n}`, `bar${(n % 6) + 1}.in${n}`, 'power');
    join(`psu.Z${n}`, `lamp.${n}`, 'power');
    for (const more of ['a', 'b', 'c']) join(`panel.${more}${n}`, `drive${n}.${more}`, 'signal');
  }
  const classes: Readonly<Record<string, string>> = {
    drive: 'drive',
    motor: 'motor',
    near: 'switch',
    far: 'switch',
    bar: 'terminal-strip',
    earth: 'terminal-strip',
    sense: 'terminal-strip',
    psu: 'supply',
    panel: 'controller',
    lamp: 'load',
  };
  const names = [...wired.keys(), 'spare'];
  const parts = names.map((name) => {
    const partClass = classes[name.replace(/\d+$/, '')] ?? 'load';
    const terminals = [...(wired.get(name) ?? [])].map((terminal) => ({
      id: `terminal:${name}.${terminal}`,
      name: terminal,
      group: '',
      wired: true,
    }));
    return {
      id: `part:${name}`,
      name,
      title: partClass,
      partClass,
      ...(partClass === 'terminal-strip' && { rail: true }),
      terminals,
    };
  });
  return { parts, links };
}
