import { say } from '../../language/say.ts';
import { h, type View, type ViewElement } from '../view.ts';
import { type Cell, type Column, NOTHING, type Row, type Table, textOf } from './table.ts';

/** A table with its title. What only a page with a script can do stands in elements that `withoutTools` takes away. */
export function tableView(table: Table): ViewElement {
  const { title, titleId, about, note, empty = say`Nothing yet.` } = table;
  const focus = titleId === undefined ? {} : { 'data-id': titleId, tabindex: 0 };
  return h(
    'div',
    { class: 'table' },
    h(
      'div',
      { class: 'table-head' },
      h('h3', focus, title),
      about === undefined ? undefined : h('p', { class: 'muted about-table' }, about),
      table.rows.length > 0 ? tableTools(title, table.rows.length) : undefined,
    ),
    table.rows.length > 0 ? bare(table) : h('p', { class: 'muted' }, empty),
    note === undefined ? undefined : h('p', { class: 'muted note' }, note),
  );
}

/** A table that is seen at a glance needs no filter. */
const LEAST_FILTERED = 8;

function tableTools(title: string, rows: number): ViewElement {
  const tool = (act: string, text: string, says: string) =>
    h('button', { class: 'tool', 'data-act': act, 'aria-label': `${says}: ${title}`, title: says }, text);
  return h(
    'div',
    { class: 'tool-only table-tools' },
    rows < LEAST_FILTERED
      ? undefined
      : h('input', {
          type: 'search',
          class: 'filter',
          placeholder: say`Filter rows`,
          'aria-label': `${say`Filter rows`}: ${title}`,
        }),
    tool('copy-table', say`Copy`, say`Copy the table`),
    tool('save-table', 'CSV', say`Save as CSV`),
  );
}

/** A table without the columns that say nothing in any row; files keep them, so that their columns are always the same. */
function bare(table: Table): ViewElement {
  const { title, columns, rows } = withoutEmptyColumns(table);
  const first = rows.findIndex(({ id }) => id !== undefined);
  const ticks = rows.some(({ tick }) => tick !== undefined);
  return h(
    'table',
    { 'aria-label': title },
    h(
      'thead',
      {},
      h('tr', {}, ticks ? h('th', { scope: 'col', class: 'tick' }, say`Done`) : undefined, columns.map(head)),
    ),
    h(
      'tbody',
      {},
      rows.map((row, number) => rowView(row, columns, number === first, ticks)),
    ),
  );
}

function withoutEmptyColumns(table: Table): Table {
  const kept = table.columns.map(
    (_, place) =>
      place === 0 || table.rows.some(({ cells }) => !['', NOTHING].includes(textOf(cells[place]))),
  );
  const pick = <T>(all: readonly T[]) => all.filter((_, place) => kept[place]);
  return {
    ...table,
    columns: pick(table.columns),
    rows: table.rows.map((row) => ({ ...row, cells: pick(row.cells) })),
  };
}

function head({ title, number }: Column): ViewElement {
  return h(
    'th',
    { scope: 'col', class: number ? 'number' : undefined },
    h('button', { class: 'sort', 'data-act': 'sort', title: say`Sort by this column` }, title),
  );
}

/** The keyboard comes to the first row and goes on by arrows, so that a long table is one stop and not a hundred. */
function rowView(
  { id, quiet, tick, cells }: Row,
  columns: readonly Column[],
  isFirst: boolean,
  ticks: boolean,
): ViewElement {
  const focus = id === undefined ? {} : { 'data-id': id, tabindex: isFirst ? 0 : -1 };
  return h(
    'tr',
    { ...focus, class: quiet ? 'unwired' : undefined },
    ticks ? h('td', { class: 'tick' }, tick && tickBox(tick)) : undefined,
    columns.map(({ number }, place) => {
      const cell = cells[place];
      const attributes = { class: number ? 'number' : undefined, ...workingOf(cell) };
      return place === 0
        ? h('th', { scope: 'row', ...attributes }, show(cell))
        : h('td', attributes, show(cell));
    }),
  );
}

function workingOf(cell: Cell | undefined): Record<string, string> {
  return typeof cell === 'object' && cell.working !== undefined ? { 'data-working': cell.working } : {};
}

function show(cell: Cell | undefined): View {
  return typeof cell === 'object' && cell.view ? cell.view : textOf(cell);
}

/** A box that can be ticked; what is ticked belongs to the page. */
export function tickBox({ id, says }: { readonly id: string; readonly says: string }): ViewElement {
  return h('button', { role: 'checkbox', 'aria-checked': 'false', 'data-tick': id, 'aria-label': says });
}
