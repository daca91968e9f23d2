import { later, said, say } from '../../server/core/language/say.ts';
import { printSvg } from '../../server/core/summary/export/print-svg.ts';
import type { Summary } from '../../server/core/summary/summary.ts';
import type { FromPage, ToPage } from '../features/summary/messages.ts';
import { act, fileName, type Outside, type Shown } from './acts.ts';
import { createCard } from './card.ts';
import { choicesOf, restoreChoices } from './choices.ts';
import { listenToClicks } from './clicks.ts';
import { createDrawings } from './drawings.ts';
import { exportSummary } from './export.ts';
import { nameFlags, showFlags } from './flags.ts';
import { markThing } from './marks.ts';
import { createPatcher } from './patch.ts';
import { createShell } from './shell.ts';
import { type Host, keepState, readState } from './state.ts';
import { showTicks, toggleTick } from './ticks.ts';

/** The running page: it only hears; what it says goes out by `tell`. */
export interface Page {
  readonly hear: (message: ToPage) => void;
}

const BROKEN = later`The text has errors, so parts of it cannot be read. What you see is the last state that could be read.`;

/** Starts the wiring summary page in the document and reports to the host that it is ready. */
export function startPage(host: Host, workerAddress: string, tell: (message: FromPage) => void): Page {
  history.scrollRestoration = 'manual'; // The page scrolls back by itself, once there is something to scroll.
  nameFlags();
  const state = readState(host);
  const keep = keepState(host, state);
  const shell = createShell({
    open: (uri) => tell({ kind: 'open', uri }),
    pick: () => tell({ kind: 'pick' }),
    exportAs: (format) => {
      exportAs(format).catch((error: unknown) =>
        shell.showNotice(
          say`The page could not be exported. ${error instanceof Error ? error.message : String(error)}`,
        ),
      );
    },
  });
  let shown: string | null = null;
  let marked: string | null = null;
  let title = '';
  let revision: string | undefined;
  // One question at a time: the answer to an older one must never be laid over a newer one.
  let asking = false;
  let askAgain = false;
  let scrollTo: number | undefined;

  const drawings = createDrawings(workerAddress, {
    state,
    keep,
    save: (id, picture) => save(fileName(title, id, 'svg'), printSvg(picture)),
    drawn: () => {
      showFlags(shell.main);
      mark(false);
    },
  });
  const patcher = createPatcher(shell.main, drawings.show, (id, element) => {
    if (Object.hasOwn(state.items, id)) restoreChoices(element, state.items[id] ?? {});
  });
  const save = (name: string, text: string): void => tell({ kind: 'save', name, text });

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
  const mark = (reveal: boolean): void => markThing(shell.main, marked, reveal, drawings.reveal);
  const ticks = (): readonly string[] =>
    shown !== null && Object.hasOwn(state.ticks, shown) ? (state.ticks[shown] ?? []) : [];

  const show = (uri: string, name: string): void => {
    shell.showEmpty(undefined);
    if (uri !== shown) {
      patcher.clear();
      shell.showTitle(name);
      shell.showNotice('');
      scrollTo = uri === state.uri ? state.scroll : 0;
      if (uri !== state.uri) {
        state.views = {};
        state.items = {};
      }
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
    if (changes.title !== '') {
      title = changes.title;
      shell.showTitle(title);
    }
    revision = changes.revision;
    shell.showNotice(changes.broken ? said(BROKEN) : '');
    shell.showContents(
      [...shell.main.querySelectorAll<HTMLElement>('.summary-section:not([hidden]):has(> h2)')].map(
        ({ dataset, ariaLabel }) => ({ section: dataset.section ?? '', title: ariaLabel ?? '' }),
      ),
    );
    if (changes.patches.length > 0) {
      showTicks(shell.main, ticks());
      showFlags(shell.main);
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
  const outside: Outside = {
    save,
    copy: (text) => tell({ kind: 'copy', text }),
    fix: (id, fix) => shown !== null && tell({ kind: 'fix', uri: shown, id, title: fix }),
  };
  const shownThings: Shown = {
    title: () => title,
    itemOf: patcher.itemOf,
  };
  const summaryNow = (): Summary => ({
    title,
    ...(revision !== undefined && { revision }),
    broken: false,
    items: patcher.items(),
  });
  const exportAs = async (format: 'html' | 'md'): Promise<void> =>
    save(fileName(title, 'wiring', format), await exportSummary(format, summaryNow(), drawings.figures));
  createCard(shell.main);
  listenToClicks(shell.main, {
    act: (button) => act(button, shownThings, outside),
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
    chosen: (item) => {
      const { [item.dataset.item ?? '']: _, ...others } = state.items;
      const choices = choicesOf(item);
      state.items = choices ? { ...others, [item.dataset.item ?? '']: choices } : others;
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
          shell.showNotice(say`${message.why} What you see may be out of date.`);
          return answered();
        case 'mark':
          marked = message.id;
          return mark(true);
      }
    },
  };
}
