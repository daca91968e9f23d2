import type { MachineAnalysis } from '../analysis.ts';
import { circuitsOfKind } from '../circuits/supply.ts';
import { soundValue } from '../findings/common/held-back.ts';
import { findAll } from '../findings/find.ts';
import type { Finding, Severity } from '../findings/rule.ts';
import { rangeOf } from '../syntax/tree.ts';
import { type Derived, showBriefly } from '../values/derived.ts';
import { supplyVoltage } from '../values/supply.ts';
import { axisId, findingId, partId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { h, type View, type ViewElement } from './view.ts';

const WORDS: Readonly<Record<Severity, readonly [one: string, many: string]>> = {
  error: ['error', 'errors'],
  warning: ['warning', 'warnings'],
  hint: ['hint', 'hints'],
};

/** The first thing that people look for: what is wrong, what each axis does and what limits it, what each supply feeds. */
export function headlineItems(analysis: MachineAnalysis): SummaryItem[] {
  return [
    view(
      'title',
      h(
        'header',
        { class: 'title' },
        h('h1', {}, analysis.machine.title || 'Machine without a name'),
        about(analysis),
      ),
    ),
    view('findings', findingsView(analysis)),
    view('axes', axesView(analysis)),
    view('supplies', suppliesView(analysis)),
  ];
}

function view(id: string, element: ViewElement): SummaryItem {
  return { id, section: 'headline', kind: 'view', view: element };
}

function about({ machine }: MachineAnalysis): View | undefined {
  const revision = machine.fields.text('revision')?.value;
  const text = machine.fields.text('about')?.value;
  const line = [revision === undefined ? undefined : `Revision ${revision}`, text]
    .filter((word) => word !== undefined)
    .join('. ');
  return line === '' ? undefined : h('p', { class: 'about' }, line);
}

function findingsView(analysis: MachineAnalysis): ViewElement {
  const findings = findAll(analysis);
  const counts = (['error', 'warning', 'hint'] as const).map((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return h('span', { class: `count ${severity}` }, `${count} ${WORDS[severity][count === 1 ? 0 : 1]}`);
  });
  const list = findings.map((finding, index) => findingView(analysis, finding, index));
  return h(
    'div',
    { class: 'findings' },
    h('h2', {}, 'Findings'),
    h('p', { class: 'counts' }, counts),
    list.length > 0
      ? h('ul', {}, list)
      : h(
          'p',
          { class: 'muted' },
          'Nothing found by the checks that exist. That is not a proof that the machine is safe.',
        ),
  );
}

function findingView(analysis: MachineAnalysis, finding: Finding, index: number): ViewElement {
  const line = lineOf(analysis, finding);
  return h(
    'li',
    { class: `finding ${finding.severity}`, 'data-id': findingId(index), tabindex: 0 },
    h('strong', {}, WORDS[finding.severity][0]),
    ` ${finding.message} `,
    h('small', {}, `line ${line}, ${finding.code}`),
  );
}

function lineOf({ tree }: MachineAnalysis, finding: Finding): number {
  const from = rangeOf(tree, finding.at)?.from ?? 0;
  return tree.text.slice(0, from).split('\n').length;
}

function axesView(analysis: MachineAnalysis): ViewElement {
  const { axes } = analysis.machine;
  if (axes.size === 0)
    return h(
      'div',
      { class: 'axes' },
      h('h2', {}, 'Axes'),
      h('p', { class: 'muted' }, 'No axis yet: add one under axes, e.g. X, to see its numbers.'),
    );
  const value = (axis: string, name: string) => soundValue(analysis, `axes.${axis}.${name}`);
  const cell = (derived: Derived | undefined) =>
    h('td', { class: 'number', title: derived?.working }, derived ? showBriefly(derived) : '–');
  // Pulses are keyed in digit by digit; the rest is there to be compared.
  const exact = (derived: Derived | undefined) =>
    h('td', { class: 'number', title: derived?.working }, derived?.shown ?? '–');
  const rows = [...axes.values()].map((axis) => {
    const feed = value(axis.name, 'top-feed');
    return h(
      'tr',
      { 'data-id': axisId(axis.name), tabindex: 0 },
      h('th', { scope: 'row' }, axis.name),
      exact(value(axis.name, 'pulses-per-length')),
      cell(value(axis.name, 'resolution')),
      h('td', { class: 'number' }, axis.fields.text('feed')?.value ?? '–'),
      cell(feed),
      h('td', {}, feed?.limit ?? '–'),
      cell(value(axis.name, 'torque-margin')),
      cell(value(axis.name, 'timing.lead-margin')),
    );
  });
  const heads = [
    'Axis',
    'Pulses',
    'Resolution',
    'Feed wanted',
    'Top feed',
    'Limited by',
    'Torque margin',
    'Lead margin',
  ];
  return h('div', { class: 'axes' }, h('h2', {}, 'Axes'), table(heads, rows));
}

function suppliesView(analysis: MachineAnalysis): ViewElement {
  const supplies = circuitsOfKind(analysis.machine, 'power-out').filter(
    ({ part }) => part.sheet?.partClass === 'supply',
  );
  if (supplies.length === 0)
    return h(
      'div',
      { class: 'supplies' },
      h('h2', {}, 'Supplies'),
      h('p', { class: 'muted' }, 'No supply yet.'),
    );
  const rows = supplies.map((supply) => {
    const feeds = analysis.feeds.filter((feed) => feed.supply.part === supply.part);
    const first = feeds[0];
    const voltage = first
      ? supplyVoltage(analysis.machine, first)?.shown
      : supply.circuit.figures.text('voltage')?.value;
    const share = soundValue(analysis, `parts.${supply.part.name}.load-share`);
    const loads = [...new Set(feeds.map((feed) => feed.load.part.name))];
    return h(
      'tr',
      { 'data-id': partId(supply.part.name), tabindex: 0 },
      h('th', { scope: 'row' }, supply.part.name),
      h('td', { class: 'number' }, voltage ?? '–'),
      h('td', { class: 'number' }, supply.circuit.figures.text('current')?.value ?? '–'),
      h('td', { class: 'number', title: share?.working }, share ? showBriefly(share) : '–'),
      h('td', {}, loads.length > 0 ? loads.join(', ') : 'nothing yet'),
    );
  });
  return h(
    'div',
    { class: 'supplies' },
    h('h2', {}, 'Supplies'),
    table(['Supply', 'Gives', 'Rated for', 'Load', 'Feeds'], rows),
  );
}

/** A table with a heading row. */
export function table(heads: readonly string[], rows: readonly ViewElement[]): ViewElement {
  return h(
    'table',
    {},
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        heads.map((head) => h('th', { scope: 'col' }, head)),
      ),
    ),
    h('tbody', {}, rows),
  );
}
