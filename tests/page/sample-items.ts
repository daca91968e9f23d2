import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { h, type ViewElement } from '../../server/core/summary/view.ts';
import { sampleDrawing } from './sample.ts';

/** A made-up summary of some size, with something of everything, in the shapes that the server gives. */
export function sampleItems(): SummaryItem[] {
  const charted = sampleDrawing().parts.filter(({ partClass }) => /controller|drive/.test(partClass));
  return [
    view(
      'title',
      'headline',
      h(
        'header',
        { class: 'title' },
        h('h1', {}, 'Half-hull router'),
        h('p', {}, 'Revision 4. Three-axis gantry with a rotary table.'),
      ),
    ),
    view('findings', 'headline', findings()),
    view('axes', 'headline', axes()),
    { id: 'drawing', section: 'drawing', kind: 'drawing', drawing: sampleDrawing() },
    ...charted.map((part) => view(`chart:${part.name}`, 'charts', chart(part))),
    view('cautions', 'cautions', cautions()),
  ];
}

/** One item of the summary with this view. */
export function view(id: string, section: SummaryItem['section'], element: ViewElement): SummaryItem {
  return { id, section, kind: 'view', view: element };
}

function findings(): ViewElement {
  const rows = [
    [
      'error',
      'finding:0',
      '48 V feeds panel, which takes 20..30 V. Feed it from a supply of 24 V.',
      'line 14, power/outside-span',
    ],
    [
      'warning',
      'finding:1',
      'stop-x-far is normally open: a broken wire would not be noticed.',
      'line 31, safety/broken-wire',
    ],
    [
      'hint',
      'finding:2',
      'drive-x runs at 62 % of the phase current that motor-x takes.',
      'line 20, motion/current-low',
    ],
  ] as const;
  return h(
    'div',
    { class: 'findings' },
    h('h2', {}, 'Findings'),
    h(
      'p',
      { class: 'counts' },
      rows.map(([severity]) => h('span', { class: `count ${severity}` }, `1 ${severity}`)),
    ),
    h(
      'ul',
      {},
      rows.map(([severity, id, text, place]) =>
        h(
          'li',
          { class: `finding ${severity}`, 'data-id': id, tabindex: 0 },
          h('strong', {}, severity),
          ` ${text} `,
          h('small', {}, place),
        ),
      ),
    ),
  );
}

/** The axes' table, with the pulses of X as given. */
export function axes(pulses = '320 /mm'): ViewElement {
  const row = (axis: string, ...cells: readonly string[]): ViewElement =>
    h(
      'tr',
      { 'data-id': `axis:${axis}`, tabindex: 0 },
      h('th', { scope: 'row' }, axis),
      cells.map((cell, n) => h('td', n < 3 ? { class: 'number' } : {}, cell)),
    );
  return h(
    'div',
    { class: 'axes' },
    h('h2', {}, 'Axes'),
    table(
      ['Axis', 'Pulses', 'Top feed', 'Torque margin', 'Limited by'],
      row('X', pulses, '3750 mm/min', '2.4', 'pulse rate of panel'),
      row('Y', '320 /mm', '3750 mm/min', '2.1', 'pulse rate of panel'),
      row('Z', '640 /mm', '1875 mm/min', '1.8', 'torque of motor-z'),
    ),
  );
}

function chart({
  id,
  name,
  title,
  terminals,
}: ReturnType<typeof sampleDrawing>['parts'][number]): ViewElement {
  const rows = terminals.map(({ id: terminal, name: text, wired }) =>
    h(
      'tr',
      { 'data-id': terminal, tabindex: 0, class: wired ? undefined : 'unwired' },
      h('th', { scope: 'row' }, text),
      [wired ? 'drive-x.PUL+' : '–', wired ? '0.25 mm2 YE' : '–', '–'].map((cell) => h('td', {}, cell)),
    ),
  );
  return h(
    'article',
    { class: 'chart' },
    h('h3', { 'data-id': id, tabindex: 0 }, name),
    h('p', { class: 'muted' }, title),
    table(['Terminal', 'Goes to', 'Wire', 'Label'], ...rows),
  );
}

function table(heads: readonly string[], ...rows: readonly ViewElement[]): ViewElement {
  const head = h(
    'tr',
    {},
    heads.map((text) => h('th', { scope: 'col' }, text)),
  );
  return h('table', {}, h('thead', {}, head), h('tbody', {}, rows));
}

function cautions(): ViewElement {
  const box = h('button', {
    role: 'checkbox',
    'aria-checked': 'false',
    'data-tick': 'read',
    'aria-label': 'Read',
  });
  return h(
    'div',
    { class: 'cautions' },
    h('h2', {}, 'Cautions'),
    h(
      'ul',
      {},
      h(
        'li',
        {},
        'Mains voltage, moving machinery and stored energy can kill. Follow local codes and the makers’ manuals.',
      ),
    ),
    h('h3', {}, 'Not checked'),
    h('ul', {}, h('li', {}, 'whether what is wired is what is written here')),
    h('p', {}, box, ' Read.'),
  );
}
