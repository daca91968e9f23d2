import { h, type ViewElement } from '../view.ts';
import type { Picture } from './picture.ts';

/** A picture with its title and its words below. */
export function pictureView({ title, titleId, svg, says, states }: Picture): ViewElement {
  const focus = titleId === undefined ? {} : { 'data-id': titleId, tabindex: 0 };
  return h(
    'figure',
    { class: 'picture' },
    h(
      'div',
      { class: 'table-head' },
      h('h3', focus, title),
      h(
        'div',
        { class: 'tool-only table-tools' },
        states?.map((state) =>
          h(
            'button',
            { class: 'tool', 'data-act': 'state', 'data-state': state.id, title: `Show: ${state.title}` },
            state.title,
          ),
        ),
        h(
          'button',
          {
            class: 'tool',
            'data-act': 'save-picture',
            'aria-label': `Save as SVG: ${title}`,
            title: 'Save as SVG',
          },
          'SVG',
        ),
      ),
    ),
    h('div', { class: 'plot' }, svg),
    h(
      'figcaption',
      {},
      says.map((sentence) => h('p', {}, sentence)),
    ),
  );
}
