import type { Figure } from '../../server/core/summary/export/print-page.ts';
import type { ViewElement } from '../../server/core/summary/view.ts';
import { createDrawingView, type DrawingView } from './drawing-view.ts';
import { createLayouter } from './layouter.ts';
import type { ItemView } from './patch.ts';
import type { PageState } from './state.ts';

/** The drawings of the page, by the ids of their items. */
export interface Drawings {
  /** Makes the view of one more. */
  readonly show: (id: string) => ItemView;
  /** Brings an element into the frame of the drawing that it is in. */
  readonly reveal: (element: Element) => void;
  /** All that is printed of each, laid out. */
  readonly figures: () => Promise<ReadonlyMap<string, readonly Figure[]>>;
}

/** What the drawings tell the page. */
export interface DrawingsHost {
  readonly state: PageState;
  readonly keep: () => void;
  readonly save: (id: string, picture: ViewElement) => void;
  /** A new picture stands in the page: what is marked must be marked again. */
  readonly drawn: () => void;
}

export function createDrawings(workerAddress: string, { state, keep, save, drawn }: DrawingsHost): Drawings {
  const layouter = createLayouter(workerAddress);
  const views = new Map<string, DrawingView>();
  return {
    show: (id) => {
      const view = createDrawingView({
        layouter,
        start: Object.hasOwn(state.views, id) ? state.views[id] : undefined,
        changed: (drawing) => {
          state.views = { ...state.views, [id]: drawing };
          keep();
        },
        choices: state,
        chosen: keep,
        save: () => {
          const picture = views.get(id)?.picture();
          if (picture) save(id, picture);
        },
        drawn,
      });
      views.set(id, view);
      return {
        ...view,
        dispose: () => {
          views.delete(id);
          view.dispose();
        },
      };
    },
    reveal: (element) => {
      for (const view of views.values()) if (view.element.contains(element)) view.reveal(element);
    },
    figures: async () => {
      const figures = new Map<string, readonly Figure[]>();
      for (const [id, view] of views) figures.set(id, await view.figures());
      return figures;
    },
  };
}
