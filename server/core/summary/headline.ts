import type { MachineAnalysis } from '../analysis.ts';
import { circuitsOfKind } from '../circuits/supply.ts';
import { soundValue } from '../findings/common/held-back.ts';
import { said, say } from '../language/say.ts';
import { type Derived, showBriefly } from '../values/derived.ts';
import { supplyVoltage } from '../values/supply.ts';
import { namedSignals } from '../values/supply-load.ts';
import { findingsView } from './findings.ts';
import { line } from './pictures/ink.ts';
import { axisId, partId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { type Cell, joinWords, NOTHING, type Row, type Table } from './tables/table.ts';
import { h, type View } from './view.ts';

/** The first thing that people look for: what is wrong, what each axis does and what limits it, what each supply feeds. */
export function headlineItems(analysis: MachineAnalysis): SummaryItem[] {
  return [
    {
      id: 'title',
      section: 'title',
      kind: 'view',
      view: h(
        'header',
        { class: 'title' },
        h('h1', {}, analysis.machine.title || say`Machine without a name`),
        about(analysis),
      ),
    },
    { id: 'findings', section: 'headline', kind: 'view', view: findingsView(analysis) },
    { id: 'axes', section: 'headline', kind: 'table', table: axesTable(analysis) },
    { id: 'supplies', section: 'headline', kind: 'table', table: suppliesTable(analysis) },
  ];
}

function about({ machine }: MachineAnalysis): View | undefined {
  const revision = machine.fields.text('revision')?.value;
  const text = machine.fields.text('about')?.value;
  const line = [revision === undefined ? undefined : say`Revision ${revision}`, text]
    .filter((word) => word !== undefined)
    .join('. ');
  return line === '' ? undefined : h('p', { class: 'about' }, line);
}

/** The numbers of each axis that people look for first. */
function axesTable(analysis: MachineAnalysis): Table {
  const rows = [...analysis.machine.axes.values()].map((axis): Row => {
    const value = (name: string) => soundValue(analysis, `axes.${axis.name}.${name}`);
    const feed = value('top-feed');
    const wanted = axis.fields.quantity('feed');
    return {
      id: axisId(axis.name),
      cells: [
        axis.name,
        exactCell(value('pulses-per-length')),
        briefCell(value('resolution')),
        wanted?.text ?? NOTHING,
        feedCell(feed, wanted?.value.value),
        feed?.limit === undefined ? NOTHING : said(feed.limit),
        briefCell(value('torque-margin')),
        briefCell(value('timing.lead-margin')),
      ],
    };
  });
  const columns = [
    { title: say`Axis` },
    { title: say`Pulses`, number: true },
    { title: say`Resolution`, number: true },
    { title: say`Feed wanted`, number: true },
    { title: say`Top feed`, number: true },
    { title: say`Limited by` },
    { title: say`Torque margin`, number: true },
    { title: say`Lead margin`, number: true },
  ];
  return {
    title: say`Axes`,
    columns,
    rows,
    empty: say`No axis yet: add one under axes, e.g. X, to see its numbers.`,
  };
}

/** Pulses are keyed in digit by digit; the rest is there to be compared. */
function exactCell(derived: Derived | undefined): Cell {
  return derived ? { text: derived.shown, working: derived.working } : NOTHING;
}

function briefCell(derived: Derived | undefined): Cell {
  return derived ? { text: showBriefly(derived), working: derived.working } : NOTHING;
}

/** The top feed, over a line of its length on which the wanted feed is marked. */
function feedCell(feed: Derived | undefined, wanted: number | undefined): Cell {
  const plain = briefCell(feed);
  if (!feed || typeof plain === 'string' || wanted === undefined || !(feed.si > 0)) return plain;
  const most = Math.max(feed.si, wanted);
  const [at, end] = [(wanted / most) * 96, (feed.si / most) * 96];
  const bar = h(
    'svg',
    { class: 'feed-bar', viewBox: '0 0 100 8', width: 100, height: 8, 'aria-hidden': 'true' },
    line('rule', 2, 5, 2 + end, 5, { 'stroke-width': 2 }),
    line(wanted > feed.si ? 'asked' : 'given', 2, 5, 2 + at, 5, { 'stroke-width': 4 }),
    line('text', 2 + end, 1, 2 + end, 8, { 'stroke-width': 1.5 }),
  );
  return { ...plain, view: h('span', { class: 'with-bar' }, plain.text, bar) };
}

function suppliesTable(analysis: MachineAnalysis): Table {
  const supplies = circuitsOfKind(analysis.machine, 'power-out').filter(
    ({ part }) => part.sheet?.partClass === 'supply',
  );
  const rows = supplies.map((supply): Row => {
    const feeds = analysis.feeds.filter((feed) => feed.supply.part === supply.part);
    const first = feeds[0];
    const voltage = first
      ? supplyVoltage(analysis.machine, first)?.shown
      : supply.circuit.figures.text('voltage')?.value;
    const loads = joinWords([
      ...feeds.map((feed) => feed.load.part.name),
      ...namedSignals(analysis.machine, supply),
    ]);
    return {
      id: partId(supply.part.name),
      cells: [
        supply.part.name,
        voltage ?? NOTHING,
        supply.circuit.figures.text('current')?.value ?? NOTHING,
        briefCell(soundValue(analysis, `parts.${supply.part.name}.load-share`)),
        loads === NOTHING ? say`nothing yet` : loads,
      ],
    };
  });
  const columns = [
    { title: say`Supply` },
    { title: say`Gives`, number: true },
    { title: say`Rated for`, number: true },
    { title: say`Load`, number: true },
    { title: say`Feeds` },
  ];
  return { title: say`Supplies`, columns, rows, empty: say`No supply yet.` };
}
