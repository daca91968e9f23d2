/**
 * The card with the working of a number: it appears where the pointer rests, or for the row that has the keyboard, can
 * be walked onto with the pointer, and goes by Escape (WCAG 2.2, 1.4.13).
 */
export function createCard(root: HTMLElement): void {
  const card = document.createElement('div');
  card.className = 'card';
  card.id = 'card';
  card.setAttribute('role', 'tooltip');
  card.hidden = true;
  document.body.append(card);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let owner: Element | undefined;

  const close = (): void => {
    card.hidden = true;
    owner?.removeAttribute('aria-describedby');
    owner = undefined;
  };
  const hide = (): void => {
    clearTimeout(timer);
    close();
  };
  const show = (element: Element, lines: readonly (readonly [head: string, working: string])[]): void => {
    if (lines.length === 0) return;
    card.replaceChildren(
      ...lines.map(([head, working]) => {
        const line = document.createElement('p');
        const name = document.createElement('strong');
        name.textContent = head === '' ? '' : `${head}: `;
        line.append(name, working);
        return line;
      }),
    );
    card.hidden = false;
    owner = element;
    element.setAttribute('aria-describedby', 'card');
    const box = element.getBoundingClientRect();
    const own = card.getBoundingClientRect();
    const below = box.bottom + 4 + own.height < innerHeight;
    card.style.left = `${Math.max(8, Math.min(box.left, innerWidth - own.width - 8))}px`;
    card.style.top = `${below ? box.bottom + 4 : Math.max(8, box.top - own.height - 4)}px`;
  };
  const showOnly = (cell: Element): void => {
    hide();
    show(cell, [...flagOf(cell), ...workingsIn([cell])]);
  };
  const soon = (doing: () => void, after: number): void => {
    clearTimeout(timer);
    timer = setTimeout(doing, after);
  };

  root.addEventListener('pointerover', ({ target }) => {
    const cell = target instanceof Element ? target.closest('[data-working], [data-flag]') : null;
    if (cell === owner && owner) clearTimeout(timer);
    else if (cell) soon(() => showOnly(cell), 250);
    else soon(hide, 200);
  });
  root.addEventListener('pointerleave', () => soon(hide, 200));
  card.addEventListener('pointerenter', () => clearTimeout(timer));
  card.addEventListener('pointerleave', () => soon(hide, 200));
  root.addEventListener('focusin', ({ target }) => {
    hide();
    if (target instanceof Element && target.matches(':focus-visible'))
      soon(
        () =>
          show(target, [...flagOf(target), ...workingsIn([...target.querySelectorAll('[data-working]')])]),
        250,
      );
  });
  root.addEventListener('focusout', hide);
  addEventListener('keydown', ({ key }) => key === 'Escape' && hide());
  // A card that is still to come stays so: the page may come to rest just after the pointer did.
  addEventListener('scroll', close, { passive: true });
}

/** What the findings say that an element, or the row or part round it, is flagged with. */
function flagOf(element: Element): [string, string][] {
  const flagged = element.closest('[data-flag]');
  const says = flagged?.getAttribute('data-flag-says') ?? '';
  return says === '' ? [] : says.split('\n').map((each) => [flagged?.getAttribute('data-flag') ?? '', each]);
}

/** The workings of some cells, each under the heading of its column. */
function workingsIn(cells: readonly Element[]): [string, string][] {
  return cells
    .filter((cell) => cell.hasAttribute('data-working'))
    .map((cell) => {
      const column = cell instanceof HTMLTableCellElement ? cell.cellIndex : -1;
      const head = cell.closest('table')?.tHead?.rows[0]?.cells[column]?.textContent ?? '';
      return [head, cell.getAttribute('data-working') ?? ''];
    });
}
