import { said, say } from '../../server/core/language/say.ts';
import type { Drawing, Group } from '../../server/core/summary/drawing/drawing.ts';
import { groupsIn } from '../../server/core/summary/drawing/filter.ts';
import { KINDS } from '../../server/core/summary/drawing/stroke.ts';
import { h, type ViewElement } from '../../server/core/summary/view.ts';
import { buildElement } from './dom.ts';

/** What the person can do with a drawing by its tools. */
export interface ToolActions {
  readonly zoom: (factor: number) => void;
  readonly fit: () => void;
  /** Lays the drawing out anew, whatever stands. */
  readonly tidy: () => void;
  readonly toggleKind: (kind: string) => void;
  /** Shows one group of links by itself, or all. */
  readonly chooseGroup: (group: Group | null) => void;
  readonly save: () => void;
  /** Looks for a text, from the next match on, and answers how many there are and which one is shown. */
  readonly find: (text: string, step: 1 | -1 | 0) => { readonly count: number; readonly number: number };
}

/** The tools above a drawing. */
export interface Tools {
  readonly element: HTMLElement;
  readonly showScale: (scale: number) => void;
  readonly showGroups: (drawing: Drawing, chosen: string | null) => void;
  readonly showKinds: (drawing: Drawing, off: readonly string[]) => void;
}

/** One step of zoom, by button or key. */
export const ZOOM_STEP = 1.25;

/** Makes the tools: zoom, which kinds of link to show, which is the legend too, and search. */
export function createTools(actions: ToolActions): Tools {
  const element = buildElement(
    h(
      'div',
      { class: 'tools' },
      h(
        'div',
        { class: 'tool-group', role: 'group', 'aria-label': say`Zoom` },
        button('zoom-out', '−', say`Zoom out (minus key)`),
        h('span', { class: 'scale', 'aria-live': 'off' }, '100 %'),
        button('zoom-in', '+', say`Zoom in (plus key)`),
        button('fit', say`Fit`, say`Fit: show the whole drawing (0 key)`),
        button(
          'tidy',
          say`Tidy`,
          say`Tidy: lay the drawing out anew, after edits that kept everything in its place`,
        ),
      ),
      h('div', { class: 'tool-group groups', role: 'group', 'aria-label': say`Part of the wiring` }),
      h('div', { class: 'tool-group kinds', role: 'group', 'aria-label': say`Links shown` }),
      h('div', { class: 'tool-group search' }),
      h('div', { class: 'tool-group' }, button('save', 'SVG', say`Save the drawing as SVG`)),
    ),
  ) as HTMLElement;
  const inside = (selector: string): HTMLElement => element.querySelector(selector) as HTMLElement;
  inside('.zoom-out').onclick = () => actions.zoom(1 / ZOOM_STEP);
  inside('.zoom-in').onclick = () => actions.zoom(ZOOM_STEP);
  inside('.fit').onclick = () => actions.fit();
  inside('.tidy').onclick = () => actions.tidy();
  inside('.search').append(...createSearch(actions));
  inside('.save').onclick = () => actions.save();
  const kinds = inside('.kinds');
  const groups = inside('.groups');

  return {
    element,
    showScale: (scale) => {
      inside('.scale').textContent = `${Math.round(scale * 100)} %`;
    },
    showGroups: (drawing, chosen) => {
      const all: readonly (readonly [Group | null, string])[] = [[null, say`All`], ...groupsIn(drawing)];
      const key = JSON.stringify([all, chosen]);
      if (groups.dataset.key === key) return; // So that a button that has the focus keeps it.
      groups.dataset.key = key;
      const focused = groups.contains(document.activeElement);
      groups.replaceChildren(
        ...all.map(([group, name]) => {
          const choice = buildElement(
            h('button', { class: 'tool', 'aria-pressed': String(group === chosen) }, name),
          ) as HTMLElement;
          choice.onclick = () => actions.chooseGroup(group);
          return choice;
        }),
      );
      if (focused) groups.querySelector<HTMLElement>('[aria-pressed="true"]')?.focus();
    },
    showKinds: (drawing, off) => {
      const present = [...KINDS.keys()].filter((kind) => drawing.links.some((link) => link.kind === kind));
      kinds.replaceChildren(
        ...present.map((kind) => {
          const toggle = buildElement(kindToggle(kind, !off.includes(kind))) as HTMLElement;
          toggle.onclick = () => {
            actions.toggleKind(kind);
            toggle.ariaPressed = toggle.ariaPressed === 'true' ? 'false' : 'true';
          };
          return toggle;
        }),
      );
    },
  };
}

function button(name: string, text: string, title: string): ViewElement {
  return h('button', { class: `tool ${name}`, title, 'aria-label': title }, text);
}

function kindToggle(kind: Parameters<typeof KINDS.get>[0], shown: boolean): ViewElement {
  const { name, stroke } = KINDS.get(kind) ?? { name: kind, stroke: { width: 1.4 } };
  const line = h('line', {
    x1: 0,
    y1: 5,
    x2: 26,
    y2: 5,
    stroke: 'currentColor',
    'stroke-width': stroke.width,
    'stroke-dasharray': 'dash' in stroke ? stroke.dash : undefined,
  });
  return h(
    'button',
    { class: 'tool kind', 'aria-pressed': String(shown), title: say`Show or hide ${said(name)} links` },
    h('svg', { viewBox: '0 0 26 10', width: 26, height: 10, 'aria-hidden': 'true' }, line),
    said(name),
  );
}

function createSearch(actions: ToolActions): readonly Node[] {
  const field = document.createElement('input');
  field.type = 'search';
  field.placeholder = say`Find part, terminal, label`;
  field.setAttribute('aria-label', say`Find a part, terminal or label in the drawing`);
  const count = document.createElement('span');
  count.className = 'found';
  count.setAttribute('role', 'status');
  const look = (step: 1 | -1 | 0): void => {
    const found = actions.find(field.value, step);
    if (field.value.trim() === '') count.textContent = '';
    else count.textContent = found.count === 0 ? say`none` : say`${found.number} of ${found.count}`;
  };
  field.oninput = () => look(0);
  field.onkeydown = (event) => {
    if (event.key === 'Enter') look(event.shiftKey ? -1 : 1);
    else if (event.key === 'Escape' && field.value !== '') field.value = '';
    else return;
    if (event.key === 'Escape') look(0);
    event.stopPropagation();
    event.preventDefault();
  };
  return [field, count];
}
