import { say } from '../../server/core/language/say.ts';
import type { Drawing, Group } from '../../server/core/summary/drawing/drawing.ts';
import { drawWiring } from '../../server/core/summary/drawing/drawing-svg.ts';
import { filterDrawing, GROUPS } from '../../server/core/summary/drawing/filter.ts';
import { placeParts } from '../../server/core/summary/drawing/lines.ts';
import { KINDS } from '../../server/core/summary/drawing/stroke.ts';
import { makeFigures } from '../../server/core/summary/export/figures.ts';
import type { Figure } from '../../server/core/summary/export/print-page.ts';
import type { ViewElement } from '../../server/core/summary/view.ts';
import { createArranger } from './arranger.ts';
import { buildElement } from './dom.ts';
import { listenToDrawing } from './drawing-input.ts';
import { findIn, makeParts } from './drawing-parts.ts';
import { heartOf, type Places, shiftOf } from './drawing-places.ts';
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
  frame.dataset.busy = say`Laying out …`; // The style sheet shows it while a layout is awaited.
  frame.setAttribute('role', 'group');
  frame.setAttribute(
    'aria-label',
    say`Wiring drawing. Arrow keys move it, plus and minus zoom, 0 shows all of it, f folds the part that has the focus, t traces from its terminals one after the other.`,
  );
  const note = document.createElement('p');
  note.className = 'drawing-note';
  note.setAttribute('role', 'status');

  let svg: SVGSVGElement | undefined;
  let picture: ViewElement | undefined;
  let places: Places = new Map();
  let newest = 0;
  let found: { readonly text: string; readonly number: number } = { text: '', number: 0 };

  const viewport = createViewport(frame, host.start, (state) => {
    tools.showScale(state.scale);
    host.changed(state);
  });
  const tools = createTools({
    zoom: viewport.zoom,
    fit: viewport.fit,
    tidy: () => {
      arranger.forget();
      again();
    },
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

  const arranger = createArranger(host.layouter);
  const choices = host.choices;
  const group = (): Group | undefined => GROUPS.find(([each]) => each === choices.group)?.[0];

  const show = async (drawing: Drawing, isOther: boolean): Promise<void> => {
    const turn = ++newest;
    // At once, so that the tools have their height before the page scrolls to where it was.
    tools.showKinds(drawing, choices.off);
    tools.showGroups(drawing, choices.group);
    element.classList.add('laying-out');
    const chosen = group();
    const part = chosen && filterDrawing(drawing, chosen);
    const isPart = part !== undefined && part.links.length > 0;
    const { plan, laidOut } = await arranger.arrange(
      isPart ? (chosen ?? '') : '',
      isPart ? part : drawing,
      new Set(choices.folded),
    );
    if (turn !== newest) return;
    const before = places;
    places = placeParts(plan, laidOut);
    picture = drawWiring(plan, laidOut);
    svg = buildElement(picture) as SVGSVGElement;
    viewport.setPicture(svg, shiftOf(viewport.middle(), before, places), heartOf(plan, places));
    if (isOther) viewport.fit();
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
      note.textContent = svg
        ? say`The drawing could not be laid out anew: what stands here is an earlier one. ${why} "Tidy" tries again.`
        : say`The drawing could not be laid out. ${why} "Tidy" tries again.`;
      element.classList.remove('laying-out');
    });
  };
  /** The terminal from which a signal was traced last. */
  let tracedFrom: string | undefined;
  const trace = (target: Element | null): void => {
    if (svg) traceSignal(svg, target, whole);
    tracedFrom = target?.closest<SVGElement>('.terminal')?.dataset.id;
    note.textContent = '';
  };
  listenToDrawing(frame, viewport, {
    trace,
    traceNext: (part) => {
      const terminals = [
        ...(svg?.querySelectorAll<SVGElement>(
          `.part[data-id="${CSS.escape(part)}"] .terminal:not(.unwired)`,
        ) ?? []),
      ];
      const next = (terminals.findIndex(({ dataset }) => dataset.id === tracedFrom) + 1) % terminals.length;
      const terminal = terminals[next];
      if (!terminal) return;
      trace(terminal);
      note.textContent = say`${terminal.ariaLabel ?? ''}: traced, ${next + 1} of ${terminals.length}.`;
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
      const steps = makeFigures(whole);
      let step = steps.next();
      while (!step.done) step = steps.next(await host.layouter.layout(step.value));
      return step.value;
    },
    picture: () => picture,
    reveal: (shown) => viewport.reveal(shown.getBoundingClientRect()),
    dispose: () => {
      newest++;
      viewport.dispose();
    },
  };
}

function toggle(list: readonly string[], id: string): string[] {
  return list.includes(id) ? list.filter((other) => other !== id) : [...list, id];
}
