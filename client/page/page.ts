import type { FromPage, ToPage } from '../features/summary/messages.ts';
import { createDrawingView, type DrawingView } from './drawing-view.ts';
import { createLayouter } from './layouter.ts';
import { markThing } from './marks.ts';
import { createPatcher } from './patch.ts';
import { createShell } from './shell.ts';
import { type Host, keepState, readState } from './state.ts';
import { showTicks, toggleTick } from './ticks.ts';

/** The running page: it only hears; what it says goes out by `tell`. */
export interface Page {
  readonly hear: (message: ToPage) => void;
}

const BROKEN =
  'The text has errors, so parts of it cannot be read. What you see is the last state that could be read.';

/** Starts the wiring summary page in the document and reports to the host that it is ready. */
export function startPage(host: Host, workerAddress: string, tell: (message: FromPage) => void): Page {
  history.scrollRestoration = 'manual'; // The page scrolls back by itself, once there is something to scroll.
  const state = readState(host);
  const keep = keepState(host, state);
  const shell = createShell({
    open: (uri) => tell({ kind: 'open', uri }),
    pick: () => tell({ kind: 'pick' }),
  });
  const layouter = createLayouter(workerAddress);
  const drawings = new Set<DrawingView>();
  let shown: string | null = null;
  let marked: string | null = null;
  // One question at a time: the answer to an older one must never be laid over a newer one.
  let asking = false;
  let askAgain = false;
  let scrollTo: number | undefined;

  const patcher = createPatcher(shell.main, (id) => {
    const view = createDrawingView({
      layouter,
      start: Object.hasOwn(state.views, id) ? state.views[id] : undefined,
      changed: (drawing) => {
        state.views = { ...state.views, [id]: drawing };
        keep();
      },
      off: state.off,
      offChanged: keep,
      drawn: () => mark(false),
    });
    drawings.add(view);
    return {
      ...view,
      dispose: () => {
        drawings.delete(view);
        view.dispose();
      },
    };
  });

  const ask = (): void => {
    if (shown === null) return;
    askAgain = asking;
    if (asking) return;
    asking = true;
    tell({ kind: 'have', uri: shown, have: patcher.have() });
  };
  const answered = (): void => {
    asking = false;
    if (askAgain) ask();
  };
  const mark = (reveal: boolean): void =>
    markThing(shell.main, marked, reveal, (element) => {
      for (const view of drawings) if (view.element.contains(element)) view.reveal(element);
    });
  const ticks = (): readonly string[] =>
    shown !== null && Object.hasOwn(state.ticks, shown) ? (state.ticks[shown] ?? []) : [];

  const show = (uri: string, name: string): void => {
    shell.showEmpty(undefined);
    if (uri !== shown) {
      patcher.clear();
      shell.showTitle(name);
      shell.showNotice('');
      scrollTo = uri === state.uri ? state.scroll : 0;
      if (uri !== state.uri) state.views = {};
      shown = uri;
      state.uri = uri;
      marked = null;
      // An answer that is under way is about the other machine: it will be dropped, so it is not waited for.
      asking = false;
      keep();
    }
    ask();
  };

  const change = ({ changes }: Extract<ToPage, { kind: 'changes' }>): void => {
    patcher.apply(changes.patches);
    if (changes.title !== '') shell.showTitle(changes.title);
    shell.showNotice(changes.broken ? BROKEN : '');
    shell.showContents(
      [...shell.main.querySelectorAll<HTMLElement>('.summary-section:not([hidden])')].map(
        ({ dataset, ariaLabel }) => ({ section: dataset.section ?? '', title: ariaLabel ?? '' }),
      ),
    );
    if (changes.patches.length > 0) {
      showTicks(shell.main, ticks());
      mark(false);
    }
    if (scrollTo !== undefined) {
      document.documentElement.scrollTop = scrollTo;
      scrollTo = undefined;
    }
  };

  addEventListener('scroll', () => {
    if (scrollTo !== undefined || shown === null) return;
    state.scroll = document.documentElement.scrollTop;
    keep();
  });
  listenToClicks(shell.main, {
    go: (id) => {
      if (shown === null) return;
      marked = id;
      mark(false);
      tell({ kind: 'go', uri: shown, id });
    },
    tick: (id) => {
      if (shown === null) return;
      state.ticks = { ...state.ticks, [shown]: toggleTick(ticks(), id) };
      showTicks(shell.main, ticks());
      keep();
    },
  });
  tell({ kind: 'ready', uri: state.uri });

  return {
    hear: (message) => {
      if (message.kind === 'empty') {
        shown = null;
        asking = false;
        patcher.clear();
        shell.showEmpty(message.closed);
        return;
      }
      if (message.kind === 'show') return show(message.uri, message.name);
      if (message.uri !== shown) return; // About a machine that is no longer shown.
      switch (message.kind) {
        case 'stale':
          return ask();
        case 'changes':
          change(message);
          return answered();
        case 'unavailable':
          shell.showNotice(`${message.why} What you see may be out of date.`);
          return answered();
        case 'mark':
          marked = message.id;
          return mark(true);
      }
    },
  };
}

/** Clicks on things and boxes, and Enter where the keyboard stands on a thing. */
function listenToClicks(
  main: HTMLElement,
  { go, tick }: { readonly go: (id: string) => void; readonly tick: (id: string) => void },
): void {
  const act = (target: EventTarget | null): boolean => {
    if (!(target instanceof Element)) return false;
    const box = target.closest<HTMLElement>('[data-tick]');
    if (box) {
      tick(box.dataset.tick ?? '');
      return true;
    }
    const id = target.closest<HTMLElement>('[data-id]')?.dataset.id;
    if (id !== undefined) go(id);
    return id !== undefined;
  };
  main.addEventListener('click', (event) => {
    // A text that is being selected to copy it is not a click on its thing.
    if (getSelection()?.type !== 'Range') act(event.target);
  });
  main.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' || !(event.target instanceof Element)) return;
    // Buttons turn Enter into a click of their own.
    if (event.target.closest('button, input, summary')) return;
    if (act(event.target)) event.preventDefault();
  });
}
