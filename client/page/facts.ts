import { said, say } from '../../server/core/language/say.ts';

/** One line of a card: what it is about, and what is said. */
export type Fact = readonly [head: string, says: string];

/**
 * What the tables of the page say of a terminal or a link in the drawing, each number with its working: the terminal's
 * row in the chart of its part and among the inputs, the link's in the cut list and among what wires carry.
 */
export function factsOf(root: Element, drawn: SVGElement): Fact[] {
  const facts = new Map<string, string>();
  /** Columns whose cells the name of the thing says already. */
  const known = new Set([say`From`, say`To`]);
  const rows = root.querySelectorAll<HTMLTableRowElement>(
    `[data-item]:not([data-item="faults"]) tr[data-id="${CSS.escape(drawn.dataset.id ?? '')}"]`,
  );
  for (const row of rows) {
    const heads = row.closest('table')?.tHead?.rows[0]?.cells;
    for (const cell of [...row.cells].slice(1)) {
      const head = heads?.[cell.cellIndex]?.textContent ?? '';
      const text = (cell.textContent ?? '').replace(/\s+/g, ' ').trim();
      if (head === '' || known.has(head) || facts.has(head) || text === '' || text === '–') continue;
      const working = cell.dataset.working;
      facts.set(head, working === undefined ? text : `${text} (${working})`);
    }
  }
  return [['', drawn.ariaLabel ?? ''], ...facts];
}

/** What the findings say that an element, or the row or part round it, is flagged with. */
export function flagsOf(element: Element): Fact[] {
  const flagged = element.closest('[data-flag]');
  const says = flagged?.getAttribute('data-flag-says') ?? '';
  return says === ''
    ? []
    : says.split('\n').map((each) => [said(flagged?.getAttribute('data-flag') ?? ''), each]);
}

/** The workings of some cells, each under the heading of its column. */
export function workingsIn(cells: readonly Element[]): Fact[] {
  return cells
    .filter((cell) => cell.hasAttribute('data-working'))
    .map((cell) => {
      const column = cell instanceof HTMLTableCellElement ? cell.cellIndex : -1;
      const head = cell.closest('table')?.tHead?.rows[0]?.cells[column]?.textContent ?? '';
      return [head, cell.getAttribute('data-working') ?? ''];
    });
}
