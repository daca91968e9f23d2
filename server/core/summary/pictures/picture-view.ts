import { say } from '../../language/say.ts';
import { h, type ViewElement } from '../view.ts';
import type { Picture } from './picture.ts';

/**
 * A picture with its title and its words below. One of many of a kind, such as the way of one signal among thirty, is
 * folded up until somebody asks for it.
 */
export function pictureView(picture: Picture): ViewElement {
  const { title, titleId, svg, says, states } = picture;
  const words = h(
    'figcaption',
    {},
    says.map((sentence) => h('p', {}, sentence)),
  );
  const plot = h('div', { class: 'plot' }, svg);
  const focus = titleId === undefined ? {} : { 'data-id': titleId, tabindex: 0 };
  if (states === undefined)
    return h(
      'figure',
      { class: 'picture' },
      h('div', { class: 'table-head' }, h('h3', focus, title), tools(picture)),
      plot,
      words,
    );
  return h(
    'details',
    { class: 'picture folded' },
    h(
      'summary',
      {},
      h('span', { class: 'fold-title' }, title),
      h('span', { class: 'fold-says' }, says.slice(0, 2).join(' ')),
    ),
    h('figure', {}, tools(picture), plot, words),
  );
}

function tools({ title, states }: Picture): ViewElement {
  return h(
    'div',
    { class: 'tool-only table-tools' },
    states?.map((state, number) =>
      h(
        'button',
        { class: 'tool', 'data-act': 'state', 'data-state': state.id, 'aria-pressed': String(number === 0) },
        state.title,
      ),
    ),
    h(
      'button',
      {
        class: 'tool',
        'data-act': 'save-picture',
        'aria-label': `${say`Save as SVG`}: ${title}`,
        title: say`Save as SVG`,
      },
      'SVG',
    ),
  );
}
