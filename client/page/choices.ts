import { showState } from './acts.ts';

/** What a person has done to one item: unfolded it, sorted and filtered its table, chosen a state of its picture. */
export interface ItemChoices {
  readonly open?: true;
  /** The heading of the column, since columns that say nothing come and go. */
  readonly sort?: { readonly column: string; readonly order: 'ascending' | 'descending' };
  readonly filter?: string;
  readonly shown?: string;
}

/** Reads an item's choices off the page; undefined when it is as the server gave it. */
export function choicesOf(item: HTMLElement): ItemChoices | undefined {
  const head = item.querySelector<HTMLTableCellElement>('th[aria-sort]');
  const filter = item.querySelector<HTMLInputElement>('.filter')?.value ?? '';
  const { shown } = item.dataset;
  const order = head?.ariaSort;
  const choices: ItemChoices = {
    ...(item.querySelector('details')?.open && { open: true }),
    ...(head &&
      (order === 'ascending' || order === 'descending') && {
        sort: { column: head.textContent ?? '', order },
      }),
    ...(filter !== '' && { filter }),
    ...(shown !== undefined && { shown }),
  };
  return Object.keys(choices).length > 0 ? choices : undefined;
}

/** Does to a new item what the person had done to it. The caller arranges its tables afterwards. */
export function restoreChoices(item: HTMLElement, { open, sort, filter, shown }: ItemChoices): void {
  const details = item.querySelector('details');
  if (details && open) details.open = true;
  const heads = [...item.querySelectorAll<HTMLTableCellElement>('thead th')];
  const head = sort && heads.find(({ textContent }) => textContent === sort.column);
  if (head) head.ariaSort = sort.order;
  const field = item.querySelector<HTMLInputElement>('.filter');
  if (field && filter !== undefined) field.value = filter;
  if (shown !== undefined && item.querySelector(`[data-state="${CSS.escape(shown)}"]`))
    showState(item, shown);
}

/** Reads choices that another version of the page may have written: what does not fit is left out. */
export function readChoices(value: unknown): ItemChoices | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { open, sort, filter, shown } = value as Record<string, unknown>;
  const { column, order } = (typeof sort === 'object' && sort !== null ? sort : {}) as Record<
    string,
    unknown
  >;
  return {
    ...(open === true && { open }),
    ...(typeof column === 'string' &&
      (order === 'ascending' || order === 'descending') && { sort: { column, order } }),
    ...(typeof filter === 'string' && { filter }),
    ...(typeof shown === 'string' && { shown }),
  };
}
