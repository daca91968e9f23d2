/** What a person does to a table is the page's own: how its rows are sorted and filtered. It is done anew after each patch. */

/** Sorts by a column: upwards, then downwards, then as the server gave it. */
export function sortBy(head: HTMLTableCellElement): void {
  const next = { ascending: 'descending', descending: 'none' }[head.ariaSort ?? ''] ?? 'ascending';
  const table = head.closest('table');
  if (!table) return;
  rememberOrder(table);
  for (const other of table.querySelectorAll('thead th')) other.removeAttribute('aria-sort');
  if (next !== 'none') head.setAttribute('aria-sort', next);
  showSorted(table);
}

/** The place of each row as the server gave it, to go back to. */
const order = new WeakMap<HTMLTableRowElement, number>();

function rememberOrder(table: HTMLTableElement): void {
  if (table.querySelector('th[aria-sort]')) return;
  for (const [place, row] of rowsOf(table).entries()) order.set(row, place);
}

function rowsOf(table: HTMLTableElement): HTMLTableRowElement[] {
  return [...(table.tBodies[0]?.rows ?? [])];
}

const words = new Intl.Collator('en', { numeric: true });

function showSorted(table: HTMLTableElement): void {
  const head = table.querySelector<HTMLTableCellElement>('th[aria-sort]');
  const rows = rowsOf(table);
  const text = (row: HTMLTableRowElement) => row.cells[head?.cellIndex ?? 0]?.textContent ?? '';
  const isNumber = head?.classList.contains('number') ?? false;
  const number = (row: HTMLTableRowElement) =>
    Number.parseFloat(
      text(row)
        .replace(/[^\d.−-]/g, '')
        .replace('−', '-'),
    );
  const turn = head?.ariaSort === 'descending' ? -1 : 1;
  const compare = (a: HTMLTableRowElement, b: HTMLTableRowElement): number => {
    if (!head) return (order.get(a) ?? 0) - (order.get(b) ?? 0);
    const byNumber = isNumber ? number(a) - number(b) : 0;
    return turn * (byNumber || words.compare(text(a), text(b)));
  };
  const sorted = [...rows].sort(compare);
  if (sorted.some((row, place) => row !== rows[place])) table.tBodies[0]?.append(...sorted);
}

/** Shows only the rows that hold every word of the filter. */
function showFiltered(table: HTMLTableElement, filter: string): void {
  const wanted = filter
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  for (const row of rowsOf(table)) {
    const text = row.textContent?.toLowerCase() ?? '';
    const hidden = !wanted.every((word) => text.includes(word));
    if (row.hidden !== hidden) row.hidden = hidden;
  }
}

/** Brings sorting and filter of the tables inside an element up to date. */
export function arrangeTables(root: Element): void {
  for (const box of root.querySelectorAll('.table')) {
    const table = box.querySelector('table');
    if (!table) continue;
    if (table.querySelector('th[aria-sort]')) {
      for (const [place, row] of rowsOf(table).entries()) order.set(row, place);
      showSorted(table);
    }
    showFiltered(table, box.querySelector<HTMLInputElement>('.filter')?.value ?? '');
  }
}

/** The rows that are shown, in their order, as text that a spreadsheet takes: tabs between cells. */
export function copyOf(table: HTMLTableElement): string {
  const line = (row: HTMLTableRowElement) =>
    [...row.cells]
      .filter((cell) => !cell.classList.contains('tick'))
      .map((cell) => (cell.textContent ?? '').replace(/\s+/g, ' ').trim())
      .join('\t');
  const rows = [...(table.tHead?.rows ?? []), ...rowsOf(table).filter((row) => row.checkVisibility())];
  return `${rows.map(line).join('\n')}\n`;
}

/** Moves the keyboard among the rows of a table; true when there was one to go to. */
export function stepRow(row: HTMLTableRowElement, step: 1 | -1): boolean {
  const rows = [...(row.closest('tbody')?.rows ?? [])].filter(
    (each) => each.hasAttribute('tabindex') && each.checkVisibility(),
  );
  const next = rows[rows.indexOf(row) + step];
  next?.focus();
  return next !== undefined;
}
