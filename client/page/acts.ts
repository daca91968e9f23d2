import { printSvg } from '../../server/core/summary/export/print-svg.ts';
import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { printCsv } from '../../server/core/summary/tables/print-csv.ts';
import { arrangeTables, copyOf, sortBy } from './table-acts.ts';

/** What the buttons of the page ask of the world outside it. */
export interface Outside {
  /** Lets the person save a text as a file of this name. */
  readonly save: (name: string, text: string) => void;
  readonly copy: (text: string) => void;
  /** Applies a cure of a finding. */
  readonly fix: (finding: string, title: string) => void;
}

/** What the buttons work on. */
export interface Shown {
  readonly title: () => string;
  readonly itemOf: (id: string) => SummaryItem | undefined;
}

/** Does what a button with a `data-act` says; false when it says nothing that this page knows. */
export function act(button: HTMLElement, shown: Shown, outside: Outside): boolean {
  const item = button.closest<HTMLElement>('[data-item]');
  const id = item?.dataset.item ?? '';
  const given = shown.itemOf(id);
  switch (button.dataset.act) {
    case 'sort': {
      const head = button.closest<HTMLTableCellElement>('th');
      if (head) sortBy(head);
      return true;
    }
    case 'copy-table': {
      const table = button.closest('.table')?.querySelector('table');
      if (table) outside.copy(copyOf(table));
      return true;
    }
    case 'save-table':
      if (given?.kind === 'table') outside.save(fileName(shown.title(), id, 'csv'), printCsv(given.table));
      return true;
    case 'save-picture':
      if (given?.kind === 'picture')
        outside.save(fileName(shown.title(), id, 'svg'), printSvg(given.picture.svg));
      return true;
    case 'state':
      if (item) showState(item, button.dataset.state ?? '');
      return true;
    case 'fix':
      outside.fix(button.dataset.finding ?? '', button.dataset.fix ?? '');
      return true;
    default:
      return false;
  }
}

/** Shows a picture in another state; which one it is belongs to the page, so that an edit does not change it. */
export function showState(item: HTMLElement, state: string): void {
  item.dataset.shown = state;
  for (const other of item.querySelectorAll<HTMLElement>('[data-state]'))
    other.ariaPressed = String(other.dataset.state === state);
}

/** Does anew what the page itself does to an item, after a patch has changed it. */
export function arrangeItem(item: HTMLElement): void {
  arrangeTables(item);
  if (item.dataset.shown !== undefined) showState(item, item.dataset.shown);
}

/** A name of plain letters for a file: `fairground-router-cut-list.csv`. */
export function fileName(title: string, id: string, end: string): string {
  const plain = `${title} ${id}`
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 80);
  return `${plain || 'machine'}.${end}`;
}
