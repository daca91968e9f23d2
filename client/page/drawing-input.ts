import { ZOOM_STEP } from './drawing-tools.ts';
import type { Viewport } from './viewport.ts';

const KEY_STEP = 60;

/** Keys, wheel and dragging. A drag of a few pixels is still a click, so that things stay easy to hit. */
export function listenToDrawing(
  frame: HTMLElement,
  { zoom, pan, fit }: Pick<Viewport, 'zoom' | 'pan' | 'fit'>,
  on: {
    readonly trace: (target: Element | null) => void;
    /** Traces from the next terminal of a part. */
    readonly traceNext: (part: string) => void;
    readonly fold: (part: string) => void;
  },
): void {
  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => pan(-KEY_STEP, 0),
    ArrowRight: () => pan(KEY_STEP, 0),
    ArrowUp: () => pan(0, -KEY_STEP),
    ArrowDown: () => pan(0, KEY_STEP),
    '+': () => zoom(ZOOM_STEP),
    '=': () => zoom(ZOOM_STEP),
    '-': () => zoom(1 / ZOOM_STEP),
    '0': fit,
    Escape: () => on.trace(null),
  };
  const atPart = (target: EventTarget | null, doing: (part: string) => void): boolean => {
    const part = target instanceof Element ? target.closest<SVGElement>('.part')?.dataset.id : undefined;
    if (part !== undefined) doing(part);
    return part !== undefined;
  };
  frame.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const doing = { f: on.fold, t: on.traceNext }[event.key];
    if (doing && atPart(event.target, doing)) event.preventDefault();
    if (!Object.hasOwn(keys, event.key)) return;
    keys[event.key]?.();
    event.preventDefault();
  });
  frame.addEventListener(
    'wheel',
    (event) => {
      if (!event.ctrlKey && !event.metaKey) return; // An ordinary wheel scrolls the page.
      event.preventDefault();
      const box = frame.getBoundingClientRect();
      const at = { x: event.clientX - box.x - box.width / 2, y: event.clientY - box.y - box.height / 2 };
      zoom(Math.exp(-event.deltaY * (event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 0.05 : 0.002)), at);
    },
    { passive: false },
  );
  listenToDrags(frame, pan);
  frame.addEventListener('click', (event) => {
    if (!(event.target instanceof Element)) return;
    if (event.target.closest('.fold')) {
      atPart(event.target, on.fold);
      event.stopPropagation(); // Folding is no wish to go to the text.
    } else on.trace(event.target.closest('.link, .terminal'));
  });
}

const CLICK_PIXELS = 4;

function listenToDrags(frame: HTMLElement, pan: (x: number, y: number) => void): void {
  let from: { x: number; y: number } | undefined;
  let dragging = false;
  frame.addEventListener('pointerdown', (event) => {
    dragging = false;
    if (event.button === 0 && event.pointerType !== 'touch') from = { x: event.clientX, y: event.clientY };
  });
  frame.addEventListener('pointermove', (event) => {
    if (!from) return;
    const [x, y] = [from.x - event.clientX, from.y - event.clientY];
    if (!dragging && Math.hypot(x, y) < CLICK_PIXELS) return;
    if (!dragging) frame.setPointerCapture(event.pointerId);
    dragging = true;
    frame.classList.add('dragging');
    pan(x, y);
    from = { x: event.clientX, y: event.clientY };
  });
  const end = (): void => {
    from = undefined;
    frame.classList.remove('dragging');
  };
  frame.addEventListener('pointerup', end);
  frame.addEventListener('pointercancel', end);
  // The click that ends a drag is not meant for what happens to lie under the pointer.
  frame.addEventListener('click', (event) => dragging && event.stopImmediatePropagation(), { capture: true });
}
