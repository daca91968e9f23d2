import { say } from '../../core/language/say.ts';
import type { Streams } from '../command.ts';

/** Shows on a terminal how far a long work has come. */
export interface Progress {
  readonly step: () => void;
  /** Takes the line away, so that something else can be written. */
  readonly clear: () => void;
}

const EVERY_MS = 100;
const WORTH_SHOWING = 20;

/** Progress in a line of standard error that is written over; nothing when that is not a terminal or the work is short. */
export function createProgress(total: number, { err, progress }: Streams): Progress {
  if (!progress || total < WORTH_SHOWING) return { step: () => undefined, clear: () => undefined };
  let [done, shownAt, isShown] = [0, 0, false];
  const clear = () => {
    if (isShown) err('\r\u001b[K');
    isShown = false;
  };
  return {
    step: () => {
      done += 1;
      if (performance.now() - shownAt < EVERY_MS) return;
      shownAt = performance.now();
      isShown = true;
      err(`\r${say`${done} of ${total} files`}`);
    },
    clear,
  };
}
