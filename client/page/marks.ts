import { isSeen } from './viewport.ts';

/**
 * Marks every element of the thing with this id, and takes earlier marks away. When `reveal` is true and none of them
 * is in sight, the first is brought there: drawings by `revealInDrawing`, the rest by scrolling the page.
 */
export function markThing(
  root: HTMLElement,
  id: string | null,
  reveal: boolean,
  revealInDrawing: (element: Element) => void,
): void {
  for (const old of root.querySelectorAll('.marked')) old.classList.remove('marked');
  const elements = id === null ? [] : [...root.querySelectorAll(`[data-id="${CSS.escape(id)}"]`)];
  for (const element of elements) element.classList.add('marked');
  if (!reveal || elements.some(isInSight)) return;
  const drawn = elements.find((element) => isDrawingInSight(element));
  const [first] = elements;
  if (drawn) revealInDrawing(drawn);
  else if (first?.closest('.frame')) {
    first.closest('.frame')?.scrollIntoView({ block: 'nearest' });
    revealInDrawing(first);
  } else first?.scrollIntoView({ block: 'center' });
}

function isInSight(element: Element): boolean {
  const box = element.getBoundingClientRect();
  const frame = element.closest('.frame');
  return isOnPage(box) && (frame === null || isSeen(box, frame.getBoundingClientRect()));
}

function isDrawingInSight(element: Element): boolean {
  const frame = element.closest('.frame');
  return frame !== null && isOnPage(frame.getBoundingClientRect());
}

function isOnPage(box: DOMRect): boolean {
  const top = Number.parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) || 0;
  return isSeen(box, new DOMRect(0, top, innerWidth, innerHeight - top));
}
