import type { DrawingState } from './state.ts';

/** The frame through which a drawing is seen: zoom and pan by the view box, so that the picture itself never changes. */
export interface Viewport {
  /**
   * Shows another picture. `shift` moves the view along with what the person was looking at; `heart` is where to look
   * first when the whole would be too small to read.
   */
  readonly setPicture: (svg: SVGSVGElement, shift: Place, heart: Place) => void;
  readonly zoom: (factor: number, at?: Place) => void;
  readonly pan: (x: number, y: number) => void;
  readonly fit: () => void;
  /** Brings a box of the drawing into view, if it is out of sight. */
  readonly reveal: (box: DOMRect) => void;
  /** The middle of what is seen, in the drawing's units. */
  readonly middle: () => Place;
  readonly dispose: () => void;
}

type Place = { readonly x: number; readonly y: number };

const LEAST_SCALE = 0.1;
const MOST_SCALE = 4;
/** A fitted drawing is not blown up beyond its own size. */
const MOST_FITTED = 1;
/** Below this scale the names of terminals are smaller than 5 pixels. */
const LEAST_LEGIBLE = 0.45;

/** Watches over the size of `frame` and shows one picture in it. `changed` hears of every zoom and pan. */
export function createViewport(
  frame: HTMLElement,
  start: DrawingState | undefined,
  changed: (state: DrawingState) => void,
): Viewport {
  let svg: SVGSVGElement | undefined;
  let size = { width: 0, height: 0 };
  let state: DrawingState = start ?? { fitted: true, x: 0, y: 0, scale: 1, shape: 2 };

  const show = (): void => {
    const { clientWidth: width, clientHeight: height } = frame;
    if (!svg || width === 0 || height === 0) return;
    if (state.fitted) state = { ...state, ...fitted(width, height) };
    const { x, y, scale } = state;
    const [w, h] = [width / scale, height / scale];
    const box = [x - w / 2, y - h / 2, w, h].map((value) => value.toFixed(2)).join(' ');
    if (svg.getAttribute('viewBox') !== box) svg.setAttribute('viewBox', box);
  };
  const fitted = (width: number, height: number): Pick<DrawingState, 'x' | 'y' | 'scale'> => ({
    x: size.width / 2,
    y: size.height / 2,
    scale: clamp(Math.min(width / size.width, height / size.height), LEAST_SCALE, MOST_FITTED),
  });
  const move = (to: Partial<DrawingState>): void => {
    const next = { ...state, ...to };
    // The middle stays over the drawing, so that it can never be lost from sight.
    state = { ...next, x: clamp(next.x, 0, size.width), y: clamp(next.y, 0, size.height) };
    show();
    changed(state);
  };
  /** The frame takes the shape of the drawing, within the bounds that the style sheet sets. */
  const showShape = (): void => {
    frame.style.aspectRatio = String(state.shape);
  };
  showShape();
  const watcher = new ResizeObserver(show);
  watcher.observe(frame);
  // Paper has room for the whole drawing.
  const showAll = (): void => svg?.setAttribute('viewBox', `0 0 ${size.width} ${size.height}`);
  addEventListener('beforeprint', showAll);
  addEventListener('afterprint', show);

  return {
    setPicture: (picture, shift, heart) => {
      size = { width: picture.viewBox.baseVal.width, height: picture.viewBox.baseVal.height };
      picture.removeAttribute('width');
      picture.removeAttribute('height');
      const isFirst = svg === undefined && start === undefined;
      svg?.remove();
      svg = picture;
      state = { ...state, shape: size.width / size.height };
      showShape();
      frame.append(picture);
      if (isFirst && fitted(frame.clientWidth, frame.clientHeight).scale < LEAST_LEGIBLE)
        state = { ...state, fitted: false, scale: LEAST_LEGIBLE, ...heart };
      else if (!state.fitted) state = { ...state, x: state.x + shift.x, y: state.y + shift.y };
      show();
      changed(state);
    },
    zoom: (factor, at) => {
      const scale = clamp(state.scale * factor, LEAST_SCALE, MOST_SCALE);
      // What lies under the pointer stays there.
      const off = at ?? { x: 0, y: 0 };
      const x = state.x + off.x / state.scale - off.x / scale;
      const y = state.y + off.y / state.scale - off.y / scale;
      move({ fitted: false, scale, x, y });
    },
    pan: (x, y) => move({ fitted: false, x: state.x + x / state.scale, y: state.y + y / state.scale }),
    fit: () => move({ fitted: true }),
    reveal: (box) => {
      if (isSeen(box, frame.getBoundingClientRect())) return;
      const outer = frame.getBoundingClientRect();
      const x = (box.x + box.width / 2 - outer.x - outer.width / 2) / state.scale;
      const y = (box.y + box.height / 2 - outer.y - outer.height / 2) / state.scale;
      move({ fitted: false, x: state.x + x, y: state.y + y });
    },
    middle: () => ({ x: state.x, y: state.y }),
    dispose: () => {
      watcher.disconnect();
      removeEventListener('beforeprint', showAll);
      removeEventListener('afterprint', show);
    },
  };
}

/** True when at least the middle of a box lies inside a frame. Both in pixels of the page. */
export function isSeen(box: DOMRect, frame: DOMRect): boolean {
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  return x >= frame.left && x <= frame.right && y >= frame.top && y <= frame.bottom;
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
