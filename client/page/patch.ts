import { itemView } from '../../server/core/summary/item-view.ts';
import {
  hasHeading,
  SECTIONS,
  type Section,
  type SummaryItem,
  sectionTitle,
} from '../../server/core/summary/summary.ts';
import { h } from '../../server/core/summary/view.ts';
import type { SummaryPatch } from '../../server/protocol/private.ts';
import { arrangeItem } from './acts.ts';
import { buildElement, updateNode } from './dom.ts';

/** How one item is shown. The patcher keeps it until the item goes or changes its kind. */
export interface ItemView {
  readonly element: HTMLElement;
  readonly update: (item: SummaryItem) => void;
  readonly dispose: () => void;
}

interface Shown {
  hash: string;
  section: Section;
  item: SummaryItem;
  readonly view: ItemView;
}

/** The items that the page shows, kept in step with the server by patches. */
export interface Patcher {
  readonly apply: (patches: readonly SummaryPatch[]) => void;
  /** The hash of each item shown, by its id. */
  readonly have: () => Readonly<Record<string, string>>;
  readonly clear: () => void;
  readonly itemOf: (id: string) => SummaryItem | undefined;
  /** All items, in the order in which they are shown. */
  readonly items: () => readonly SummaryItem[];
}

/**
 * Makes the sections of the page inside `root` and applies patches to them, one after another. An item stays the same
 * element from patch to patch, so nothing flickers and no focus is lost.
 * @param showDrawing makes the view of a drawing
 * @param restore does to a new item what the person had done to it before the page was loaded anew
 */
export function createPatcher(
  root: HTMLElement,
  showDrawing: (id: string) => ItemView,
  restore: (id: string, element: HTMLElement) => void,
): Patcher {
  const items = new Map<string, Shown>();
  const lists = new Map<Section, HTMLElement>(
    SECTIONS.map((section) => [section, addSection(root, section)]),
  );

  const listOf = (section: Section): HTMLElement => {
    const list = lists.get(section) ?? addSection(root, section);
    lists.set(section, list);
    return list;
  };

  const put = ({ id, hash, section, after, item }: Extract<SummaryPatch, { kind: 'put' }>): void => {
    let shown = items.get(id);
    const isNew = !shown;
    if (shown && shown.item.kind !== item.kind) {
      drop(id);
      shown = undefined;
    }
    if (!shown) {
      const view = item.kind === 'drawing' ? showDrawing(id) : showView();
      view.element.dataset.item = id;
      shown = { hash, section, item, view };
      items.set(id, shown);
    }
    shown.hash = hash;
    shown.section = section;
    shown.item = item;
    placeAfter(listOf(section), shown.view.element, items.get(after ?? '')?.view.element);
    shown.view.update(item);
    if (isNew) {
      restore(id, shown.view.element);
      arrangeItem(shown.view.element);
    }
  };

  const drop = (id: string): void => {
    const shown = items.get(id);
    shown?.view.dispose();
    shown?.view.element.remove();
    items.delete(id);
  };

  const showFilled = (): void => {
    for (const list of lists.values()) {
      if (list.parentElement) list.parentElement.hidden = list.childElementCount === 0;
    }
  };

  return {
    apply: (patches) => {
      for (const patch of patches) {
        if (patch.kind === 'put') put(patch);
        else drop(patch.id);
      }
      if (patches.length > 0) showFilled();
    },
    have: () => Object.fromEntries([...items].map(([id, { hash }]) => [id, hash])),
    itemOf: (id) => items.get(id)?.item,
    items: () =>
      [...root.querySelectorAll<HTMLElement>('[data-item]')].flatMap(
        ({ dataset }) => items.get(dataset.item ?? '')?.item ?? [],
      ),
    clear: () => {
      for (const id of [...items.keys()]) drop(id);
      showFilled();
    },
  };
}

function addSection(root: HTMLElement, section: Section): HTMLElement {
  const title = sectionTitle(section);
  const element = buildElement(
    h(
      'section',
      {
        class: 'summary-section',
        id: `section-${section}`,
        'data-section': section,
        'aria-label': title,
        tabindex: -1,
      },
      hasHeading(section) ? h('h2', {}, title) : undefined,
      h('div', { class: 'items' }),
    ),
  );
  if (element instanceof HTMLElement) element.hidden = true;
  root.append(element);
  return element.lastElementChild as HTMLElement;
}

/** Moves an element behind another one of the list, or to its front, unless it stands there already. */
function placeAfter(list: HTMLElement, element: HTMLElement, before: HTMLElement | undefined): void {
  const known = before?.parentElement === list ? before : undefined;
  const next = known ? known.nextElementSibling : list.firstElementChild;
  if (next !== element) list.insertBefore(element, next);
}

function showView(): ItemView {
  const element = document.createElement('div');
  element.className = 'item';
  return {
    element,
    update: (item) => {
      const view = itemView(item);
      if (!view) return;
      if (element.firstChild) updateNode(element.firstChild, view);
      else element.append(buildElement(view));
      arrangeItem(element);
    },
    dispose: () => undefined,
  };
}
