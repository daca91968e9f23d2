import { type ItemChoices, readChoices } from './choices.ts';

/** The host of the page: the editor's webview. Its state lives as long as the panel, over hiding and reloading. */
export interface Host {
  readonly postMessage: (message: unknown) => void;
  readonly getState: () => unknown;
  readonly setState: (state: unknown) => void;
}

/** Where a drawing stands in its frame: its middle in the drawing's units, and the scale; or fitted as a whole. */
export interface DrawingState {
  readonly fitted: boolean;
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  /** Width over height of the drawing, so that its frame has its place before the drawing is laid out again. */
  readonly shape: number;
}

/** What is the page's own and must survive: where the person looks, and what they have ticked. */
export interface PageState {
  uri: string | null;
  scroll: number;
  views: Record<string, DrawingState>;
  /** The kinds of link that are switched off in the drawing. */
  off: string[];
  /** The parts that are folded up in the drawing, by their ids. */
  folded: string[];
  /** The one group of links that the drawing shows; null for all. */
  group: string | null;
  /** What the person has unfolded, sorted, filtered and chosen, by item. */
  items: Record<string, ItemChoices>;
  /** What is ticked, by machine. */
  ticks: Record<string, string[]>;
}

/** Reads the state that the host kept. Whatever does not fit is left at its start: another version may have written it. */
export function readState(host: Host): PageState {
  const kept = asRecord(host.getState());
  return {
    uri: typeof kept.uri === 'string' ? kept.uri : null,
    scroll: typeof kept.scroll === 'number' ? kept.scroll : 0,
    views: Object.fromEntries(Object.entries(asRecord(kept.views)).filter(isDrawingState)),
    off: asTexts(kept.off),
    folded: asTexts(kept.folded),
    group: typeof kept.group === 'string' ? kept.group : null,
    items: Object.fromEntries(
      Object.entries(asRecord(kept.items)).map(([id, choices]) => [id, readChoices(choices) ?? {}]),
    ),
    ticks: Object.fromEntries(Object.entries(asRecord(kept.ticks)).map(([uri, ids]) => [uri, asTexts(ids)])),
  };
}

const SETTLE_MS = 150;

/** Makes a function that keeps the state once the person has come to rest, and at once when the page is hidden. */
export function keepState(host: Host, state: PageState): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keepNow = (): void => {
    clearTimeout(timer);
    timer = undefined;
    host.setState(state);
  };
  addEventListener('pagehide', () => {
    if (timer !== undefined) keepNow();
  });
  return () => {
    clearTimeout(timer);
    timer = setTimeout(keepNow, SETTLE_MS);
  };
}

function asRecord(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}

function asTexts(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((entry) => typeof entry === 'string') : [];
}

function isDrawingState(entry: [string, unknown]): entry is [string, DrawingState] {
  const { fitted, x, y, scale, shape } = asRecord(entry[1]);
  return typeof fitted === 'boolean' && [x, y, scale, shape].every((value) => Number.isFinite(value));
}
