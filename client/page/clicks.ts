import { arrangeItem } from './acts.ts';
import { stepRow } from './table-acts.ts';

/** What clicks and keys ask for. */
export interface ClickActions {
  /** Does what a button says; false for one that says nothing known. */
  readonly act: (button: HTMLElement) => boolean;
  readonly go: (id: string) => void;
  readonly tick: (id: string) => void;
  /** Something about an item may have been chosen otherwise. */
  readonly chosen: (item: HTMLElement) => void;
}

/** Listens to buttons, boxes, things, and the keyboard on them. */
export function listenToClicks(main: HTMLElement, on: ClickActions): void {
  const answer = (target: EventTarget | null): boolean => {
    if (!(target instanceof Element)) return false;
    const box = target.closest<HTMLElement>('[data-tick]');
    if (box) {
      on.tick(box.dataset.tick ?? '');
      return true;
    }
    const button = target.closest<HTMLElement>('[data-act]');
    if (button) {
      const isDone = on.act(button);
      choose(button);
      return isDone;
    }
    if (target.closest('input, summary')) return false;
    const id = target.closest<HTMLElement>('[data-id]')?.dataset.id;
    if (id !== undefined) on.go(id);
    return id !== undefined;
  };
  const choose = (target: EventTarget | null): HTMLElement | null => {
    const item = target instanceof Element ? target.closest<HTMLElement>('[data-item]') : null;
    if (item) on.chosen(item);
    return item;
  };
  main.addEventListener('click', (event) => {
    // A text that is being selected to copy it is not a click on its thing.
    if (getSelection()?.type !== 'Range') answer(event.target);
  });
  main.addEventListener('input', ({ target }) => {
    const item = choose(target);
    if (item) arrangeItem(item);
  });
  // What folds and unfolds says so without bubbling.
  main.addEventListener('toggle', ({ target }) => choose(target), { capture: true });
  main.addEventListener('keydown', (event) => {
    const { key, target } = event;
    if (!(target instanceof Element)) return;
    if (target instanceof HTMLTableRowElement && (key === 'ArrowDown' || key === 'ArrowUp')) {
      if (stepRow(target, key === 'ArrowDown' ? 1 : -1)) event.preventDefault();
      return;
    }
    // Buttons turn Enter into a click of their own.
    if (key !== 'Enter' || target.closest('button, input, summary')) return;
    if (answer(target)) event.preventDefault();
  });
}
