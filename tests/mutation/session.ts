import { type ChildProcess, fork } from 'node:child_process';
import type { Answer, Order } from './messages.ts';
import type { Place } from './mutants.ts';

/** Far more than the slowest tests of a mutant need on a busy machine; what takes longer never ends. */
const PATIENCE_MS = 600_000;

/** Processes that run tests over the instrumented code of a folder, one after the other. */
export interface Session {
  /** Answers an order; undefined when it took so long that the process had to be ended. */
  readonly ask: (order: Order) => Promise<Answer | undefined>;
  readonly stop: () => void;
}

export function openSession(folder: string, places: readonly Place[]): Session {
  let runner: ChildProcess | undefined;
  const start = async (): Promise<ChildProcess> => {
    const child = fork(new URL('runner.ts', import.meta.url), [folder, JSON.stringify(places)], {
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    runner = child;
    await answerOf(child);
    return child;
  };
  return {
    ask: async (order) => {
      const child = runner ?? (await start());
      const answer = answerOf(child, order.kind === 'try' ? PATIENCE_MS : undefined);
      child.send(order);
      const said = await answer;
      if (said === undefined) {
        child.kill('SIGKILL');
        runner = undefined;
      }
      return said;
    },
    stop: () => runner?.disconnect(),
  };
}

function answerOf(child: ChildProcess, patience?: number): Promise<Answer | undefined> {
  return new Promise((resolve, reject) => {
    const end = (run: () => void) => () => {
      clearTimeout(timer);
      child.off('message', hear).off('exit', leave);
      run();
    };
    const hear = (answer: unknown) => end(() => resolve(answer as Answer))();
    const leave = end(() => reject(new Error('the process that runs the tests has ended')));
    const timer =
      patience === undefined
        ? undefined
        : setTimeout(
            end(() => resolve(undefined)),
            patience,
          );
    child.once('message', hear).once('exit', leave);
  });
}
