import { type Fact, factsOf, flagsOf, workingsIn } from './facts.ts';

/** What a card is shown for: numbers, what findings are about, and what is drawn. */
const THINGS = '[data-working], [data-flag], .wiring :is(.part, .terminal, .link)';

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
  const show = (element: Element, lines: readonly Fact[], at?: { x: number; y: number }): void => {
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
    // What is drawn may be as long as the page: there the card stands beside the pointer.
    const box =
      at && element instanceof SVGElement
        ? new DOMRect(at.x + 6, at.y - 10, 0, 20)
        : element.getBoundingClientRect();
    const own = card.getBoundingClientRect();
    const below = box.bottom + 4 + own.height < innerHeight;
    card.style.left = `${Math.max(8, Math.min(box.left, innerWidth - own.width - 8))}px`;
    card.style.top = `${below ? box.bottom + 4 : Math.max(8, box.top - own.height - 4)}px`;
  };
  const linesOf = (element: Element): readonly Fact[] =>
    element instanceof SVGElement
      ? [...factsOf(root, element), ...flagsOf(element)]
      : [...flagsOf(element), ...workingsIn([element])];
  const showOnly = (element: Element, at: { x: number; y: number }): void => {
    hide();
    if (!element.closest('.dragging')) show(element, linesOf(element), at);
  };
  const soon = (doing: () => void, after: number): void => {
    clearTimeout(timer);
    timer = setTimeout(doing, after);
  };

  root.addEventListener('pointerover', ({ target, clientX: x, clientY: y }) => {
    const thing = target instanceof Element ? target.closest(THINGS) : null;
    if (thing === owner && owner) clearTimeout(timer);
    else if (thing) soon(() => showOnly(thing, { x, y }), 250);
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
          show(
            target,
            target instanceof SVGElement
              ? linesOf(target)
              : [...flagsOf(target), ...workingsIn([...target.querySelectorAll('[data-working]')])],
          ),
        250,
      );
  });
  root.addEventListener('focusout', hide);
  addEventListener('keydown', ({ key }) => key === 'Escape' && hide());
  // A card that is still to come stays so: the page may come to rest just after the pointer did.
  addEventListener('scroll', close, { passive: true });
}
