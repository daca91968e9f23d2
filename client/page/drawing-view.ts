import type { Drawing, Group } from '../../server/core/summary/drawing/drawing.ts';
import { drawWiring, placeParts } from '../../server/core/summary/drawing/drawing-svg.ts';
import { type Plan, planDrawing, toLayoutGraph } from '../../server/core/summary/drawing/elk-graph.ts';
import { filterDrawing, GROUPS, listViews } from '../../server/core/summary/drawing/filter.ts';
import type { LaidOut, Point } from '../../server/core/summary/drawing/layout.ts';
import { KINDS } from '../../server/core/summary/drawing/stroke.ts';
import type { Figure } from '../../server/core/summary/export/print-page.ts';
import type { ViewElement } from '../../server/core/summary/view.ts';
import { buildElement } from './dom.ts';
import { listenToDrawing } from './drawing-input.ts';
import { createTools } from './drawing-tools.ts';
import type { Layouter } from './layouter.ts';
import type { ItemView } from './patch.ts';
import type { DrawingState, PageState } from './state.ts';
import { traceSignal } from './trace.ts';
import { createViewport } from './viewport.ts';

/** What a drawing's view takes from the page, and tells it. */
export interface DrawingHost {
  readonly layouter: Layouter;
  readonly start: DrawingState | undefined;
  readonly changed: (state: DrawingState) => void;
  /** What the person has chosen to see; shared by all drawings of the page. */
  readonly choices: Pick<PageState, 'off' | 'folded' | 'group'>;
  readonly chosen: () => void;
  /** Saves the picture as a file. */
  readonly save: () => void;
  /** A new picture stands in the page: what is marked must be marked again. */
  readonly drawn: () => void;
}

/** The view of a drawing, which can also bring one of its own elements into its frame. */
export interface DrawingView extends ItemView {
  readonly reveal: (element: Element) => void;
  /** The drawing as it stands, as data; undefined until it has been laid out. */
  readonly picture: () => ViewElement | undefined;
  /** All that is printed of it, laid out. */
  readonly figures: () => Promise<readonly Figure[]>;
}

/**
 * Makes the view of one wiring drawing. A changed drawing is laid out beside the old picture, which stays until the
 * new one is ready; layouts that are overtaken by a later change are dropped. Zoom and pan are kept.
 */
export function createDrawingView(host: DrawingHost): DrawingView {
  const element = document.createElement('figure');
  element.className = 'item drawing';
  const frame = document.createElement('div');
  frame.className = 'frame';
  frame.tabIndex = 0;
  frame.setAttribute('role', 'group');
  frame.setAttribute(
    'aria-label',
    'Wiring drawing. Arrow keys move it, plus and minus zoom, 0 shows all of it, f folds the part that has the focus.',
  );
  const note = document.createElement('p');
  note.className = 'drawing-note';
  note.setAttribute('role', 'status');

  let svg: SVGSVGElement | undefined;
  let picture: ViewElement | undefined;
  let places: ReadonlyMap<string, Point> = new Map();
  let newest = 0;
  let found: { readonly text: string; readonly number: number } = { text: '', number: 0 };

  const viewport = createViewport(frame, host.start, (state) => {
    tools.showScale(state.scale);
    host.changed(state);
  });
  const tools = createTools({
    zoom: viewport.zoom,
    fit: viewport.fit,
    toggleKind: (kind) => {
      choices.off = toggle(choices.off, kind);
      showKinds();
      host.chosen();
    },
    chooseGroup: (group) => {
      choices.group = group;
      host.chosen();
      again(true);
    },
    save: host.save,
    find: (text, step) => {
      const matches = svg ? findIn(svg, text) : [];
      const number = step === 0 || found.text !== text ? 0 : found.number + step;
      found = { text, number: matches.length === 0 ? 0 : (number + matches.length) % matches.length };
      const match = matches[found.number];
      if (match) viewport.reveal(match.getBoundingClientRect());
      match?.classList.add('found-now');
      return { count: matches.length, number: found.number + 1 };
    },
  });
  element.append(tools.element, frame, note);

  const showKinds = (): void => {
    for (const kind of KINDS.keys()) frame.classList.toggle(`without-${kind}`, choices.off.includes(kind));
  };

  /** The last layout, for an edit that moves nothing: a colour, a label, a place. */
  let last: { readonly graph: string; readonly laidOut: LaidOut } | undefined;
  const layOut = async (plan: Plan): Promise<LaidOut> => {
    const graph = toLayoutGraph(plan);
    const text = JSON.stringify(graph);
    if (last?.graph !== text) last = { graph: text, laidOut: await host.layouter.layout(graph) };
    return last.laidOut;
  };
  const choices = host.choices;
  const group = (): Group | undefined => GROUPS.find(([each]) => each === choices.group)?.[0];

  const show = async (drawing: Drawing, isOther: boolean): Promise<void> => {
    const turn = ++newest;
    element.classList.add('laying-out');
    const chosen = group();
    const part = chosen && filterDrawing(drawing, chosen);
    const plan = planDrawing(part && part.links.length > 0 ? part : drawing, new Set(choices.folded));
    const laidOut = await layOut(plan);
    if (turn !== newest) return;
    const before = places;
    places = placeParts(plan, laidOut);
    picture = drawWiring(plan, laidOut);
    svg = buildElement(picture) as SVGSVGElement;
    viewport.setPicture(svg, shiftOf(viewport.middle(), before, places), heartOf(plan, places));
    if (isOther) viewport.fit();
    tools.showKinds(drawing, choices.off);
    tools.showGroups(drawing, choices.group);
    showKinds();
    makeParts(svg);
    note.textContent = '';
    element.classList.remove('laying-out');
    host.drawn();
  };

  let whole: Drawing = { parts: [], links: [] };
  const again = (isOther = false): void => {
    show(whole, isOther).catch((error: unknown) => {
      const why = error instanceof Error ? error.message : String(error);
      note.textContent = `The drawing could not be laid out anew, so an earlier one may be shown. ${why}`;
      element.classList.remove('laying-out');
    });
  };
  listenToDrawing(frame, viewport, {
    trace: (target) => {
      if (svg) traceSignal(svg, target, whole);
    },
    fold: (part) => {
      choices.folded = toggle(choices.folded, part);
      host.chosen();
      again();
    },
  });

  return {
    element,
    update: (item) => {
      if (item.kind !== 'drawing') return;
      whole = item.drawing;
      again();
    },
    figures: async () => {
      const figures: Figure[] = [];
      for (const { title, drawing } of listViews(whole)) {
        const plan = planDrawing(drawing);
        figures.push({ title, svg: drawWiring(plan, await host.layouter.layout(toLayoutGraph(plan))) });
      }
      return figures;
    },
    picture: () => picture,
    reveal: (shown) => viewport.reveal(shown.getBoundingClientRect()),
    dispose: () => {
      newest++;
      viewport.dispose();
    },
  };
}

const SVG = 'http://www.w3.org/2000/svg';

/** Gives each part of a picture its place in the order of the keyboard, and a handle to fold it by. */
function makeParts(svg: SVGSVGElement): void {
  for (const part of svg.querySelectorAll<SVGGElement>('.part')) {
    part.setAttribute('tabindex', '0');
    const isFolded = part.dataset.folded !== undefined;
    if (!isFolded && !part.querySelector('.terminal')) continue;
    const handle = document.createElementNS(SVG, 'text');
    handle.setAttribute('class', 'fold');
    handle.setAttribute('x', String((part.querySelector('rect')?.width.baseVal.value ?? 0) - 8));
    handle.setAttribute('y', '33');
    handle.setAttribute('text-anchor', 'end');
    handle.setAttribute('aria-hidden', 'true'); // The f key does the same, as the frame says.
    handle.textContent = isFolded ? '+' : '−';
    part.append(handle);
  }
}

function toggle(list: readonly string[], id: string): string[] {
  return list.includes(id) ? list.filter((other) => other !== id) : [...list, id];
}

/** The middle of the part at which most links end, or else of nowhere. */
function heartOf({ drawing, blocks, links }: Plan, after: ReadonlyMap<string, Point>): Point {
  const counts = drawing.parts.map(
    (_, part) => links.filter(({ from, to }) => from.part === part || to.part === part).length,
  );
  const part = counts.indexOf(Math.max(0, ...counts));
  const { x, y } = after.get(drawing.parts[part]?.id ?? '') ?? { x: 0, y: 0 };
  const { width, height } = blocks[part] ?? { width: 0, height: 0 };
  return { x: x + width / 2, y: y + height / 2 };
}

/** How far the part nearest to the middle of the view has moved from one layout to the next. */
function shiftOf(
  middle: Point,
  before: ReadonlyMap<string, Point>,
  after: ReadonlyMap<string, Point>,
): Point {
  let nearest = Number.POSITIVE_INFINITY;
  let shift: Point = { x: 0, y: 0 };
  for (const [id, was] of before) {
    const is = after.get(id);
    const distance = Math.hypot(was.x - middle.x, was.y - middle.y);
    if (is === undefined || distance >= nearest) continue;
    nearest = distance;
    shift = { x: is.x - was.x, y: is.y - was.y };
  }
  return shift;
}

/** Marks everything in a drawing whose name or label contains a text, in reading order of the drawing's source. */
function findIn(svg: SVGSVGElement, text: string): readonly Element[] {
  for (const old of svg.querySelectorAll('.found, .found-now')) old.classList.remove('found', 'found-now');
  const wanted = text.trim().toLowerCase();
  if (wanted === '') return [];
  const matches = [...svg.querySelectorAll<SVGElement>('.part, .terminal, .link')].filter(({ dataset }) =>
    (dataset.name ?? dataset.label ?? '').toLowerCase().includes(wanted),
  );
  for (const match of matches) match.classList.add('found');
  return matches;
}
