import { createRequire } from 'node:module';
import { createFettle } from '../../../server/core/fettle.ts';
import type { Drawing, DrawnLink } from '../../../server/core/summary/drawing/drawing.ts';
import { toLayoutGraph } from '../../../server/core/summary/drawing/elk-graph.ts';
import type { LaidOut, LayoutGraph } from '../../../server/core/summary/drawing/layout.ts';
import { planDrawing } from '../../../server/core/summary/drawing/plan.ts';
import { settleColumns } from '../../../server/core/summary/drawing/settle.ts';
import type { ToLayOut } from '../../../server/core/summary/drawing/sheets.ts';
import { type Standing, steady } from '../../../server/core/summary/drawing/standing.ts';
import { readExamples } from '../../support/examples.ts';
import { worldOf } from '../../support/world.ts';

interface Elk {
  readonly layout: (graph: LayoutGraph) => Promise<LaidOut>;
}
const Layouter = createRequire(import.meta.url)('elkjs') as new () => Elk;
const elk = new Layouter();

/** Lays a drawing out, as page and report do; beside what stands, if there is something. */
export async function arrange(drawing: Drawing, standing?: Standing): Promise<Standing> {
  const plan = planDrawing(drawing, new Set(), standing?.plan);
  const plain = toLayoutGraph(plan);
  const graph = standing ? steady(plain, plan, standing) : plain;
  return { plan, laidOut: settleColumns(plan, await elk.layout(structuredClone(graph)), standing) };
}

/** Lays out whatever is asked for, one after the other. */
export async function layOutAll<Result>(steps: ToLayOut<Result>): Promise<Result> {
  let step = steps.next();
  while (!step.done) step = steps.next(await elk.layout(structuredClone(step.value)));
  return step.value;
}

/** The wiring drawing of each example, by its name. */
export function exampleDrawings(): readonly (readonly [name: string, drawing: Drawing])[] {
  return readExamples().map(({ name, machine, files }) => {
    const fettle = createFettle(worldOf(files));
    const { items } = fettle.summary(fettle.analyse(machine, files.get(machine) ?? ''));
    const item = items.find(({ kind }) => kind === 'drawing');
    return [name, item?.kind === 'drawing' ? item.drawing : { parts: [], links: [] }];
  });
}

/** Twelve drives with their motors and switches around one controller, fed by bars. */
export function makeLarge(): Drawing {
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
      group: groupOf(terminal),
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

/** What stands together on a part, as on real ones. */
function groupOf(terminal: string): string {
  if (/^[AB][+-]$/.test(terminal)) return 'motor';
  if (/^(?:V[+-]|PE|S)$/.test(terminal)) return 'power';
  return /^(?:near|far)\d/.test(terminal) ? 'inputs' : 'signals';
}
