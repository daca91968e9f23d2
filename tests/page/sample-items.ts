import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { h, type ViewElement } from '../../server/core/summary/view.ts';
import { sampleDrawing } from './sample.ts';

/** A made-up summary of some size, with something of everything. */
export function sampleItems(): SummaryItem[] {
  return [
    { id: 'findings', section: 'headline', kind: 'view', view: findings() },
    { id: 'axes', section: 'headline', kind: 'view', view: axes() },
    { id: 'drawing', section: 'drawing', kind: 'drawing', drawing: sampleDrawing() },
    ...sampleDrawing()
      .parts.filter(({ partClass }) => partClass === 'controller' || partClass === 'drive')
      .map(
        (part): SummaryItem => ({
          id: `chart:${part.name}`,
          section: 'charts',
          kind: 'view',
          view: chart(
            part.id,
            part.name,
            part.terminals.map(({ id, name, wired }) => [id, name, wired]),
          ),
        }),
      ),
    { id: 'cautions', section: 'cautions', kind: 'view', view: cautions() },
  ];
}

function findings(): ViewElement {
  const row = (severity: string, text: string): ViewElement =>
    h('li', { 'data-id': 'link:3' }, h('span', { class: `severity ${severity}` }, severity), ` ${text}`);
  return h(
    'div',
    {},
    h('h3', {}, 'Findings'),
    h(
      'ul',
      { class: 'plain' },
      row('error', '48 V feeds panel, which takes 20..30 V.'),
      row('warning', 'stop-x-far is normally open: a broken wire would not be noticed.'),
      row('hint', 'drive-x runs at 62 % of the phase current that motor-x takes.'),
    ),
  );
}

function axes(): ViewElement {
  const row = (axis: string, ...cells: string[]): ViewElement =>
    h(
      'tr',
      { 'data-id': `axis:${axis}` },
      h('th', { scope: 'row' }, axis),
      cells.map((cell, n) => h('td', n < 3 ? { class: 'number' } : {}, cell)),
    );
  const head = ['Axis', 'Pulses', 'Top feed', 'Torque margin', 'Limited by'];
  return h(
    'div',
    {},
    h('h3', {}, 'Axes'),
    h(
      'table',
      {},
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          head.map((text, n) =>
            h('th', { scope: 'col', class: n > 0 && n < 4 ? 'number' : undefined }, text),
          ),
        ),
      ),
      h(
        'tbody',
        {},
        row('X', '320 /mm', '3 750 mm/min', '2.4', 'pulse rate of panel'),
        row('Y', '320 /mm', '3 750 mm/min', '2.1', 'pulse rate of panel'),
        row('Z', '640 /mm', '1 875 mm/min', '1.8', 'torque of motor-z'),
      ),
    ),
  );
}

function chart(id: string, name: string, rows: readonly (readonly [string, string, boolean])[]): ViewElement {
  return h(
    'div',
    {},
    h('h3', { 'data-id': id }, name),
    h(
      'table',
      {},
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          ['Terminal', 'Goes to', 'Wire', 'At rest'].map((text, n) =>
            h('th', { scope: 'col', class: n === 3 ? 'number' : undefined }, text),
          ),
        ),
      ),
      h(
        'tbody',
        {},
        rows.map(([terminal, text, wired]) =>
          h(
            'tr',
            { 'data-id': terminal },
            h('th', { scope: 'row' }, text),
            h('td', {}, wired ? 'somewhere' : '—'),
            h('td', {}, wired ? '0.25 mm2 YE' : ''),
            h('td', { class: 'number' }, wired ? '24.0 V' : ''),
          ),
        ),
      ),
    ),
  );
}

function cautions(): ViewElement {
  return h(
    'div',
    { class: 'caution' },
    h(
      'p',
      {},
      'Mains voltage, moving machinery and stored energy can kill. Follow local codes and the makers’ manuals, and leave mains work to licensed people.',
    ),
    h(
      'p',
      {},
      h('button', { role: 'checkbox', 'aria-checked': 'false', 'data-tick': 'read', 'aria-label': 'Read' }),
      ' Read and understood.',
    ),
  );
}
