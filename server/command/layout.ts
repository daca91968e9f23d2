import { createRequire } from 'node:module';
import { join } from 'node:path';
import { say } from '../core/language/say.ts';
import type { LaidOut, LayoutGraph } from '../core/summary/drawing/layout.ts';
import type { ToLayOut } from '../core/summary/drawing/sheets.ts';

/** The layout library's worker, which runs in this thread when it is loaded by node instead of a browser. */
interface LayoutWorker {
  onmessage: (event: { data: { id: number; data?: LaidOut; error?: { message?: string } } }) => void;
  postMessage: (message: unknown) => void;
}

/** Lays out whatever is asked for, one after the other. */
export async function layOutAll<Result>(steps: ToLayOut<Result>): Promise<Result> {
  let step = steps.next();
  while (!step.done) step = steps.next(await layOut(step.value));
  return step.value;
}

/** Lays a drawing out. The library is loaded only when a drawing is asked for, since it is large. */
function layOut(graph: LayoutGraph): Promise<LaidOut> {
  const { Worker } = createRequire(__filename)(join(__dirname, 'elk-worker.js')) as {
    Worker: new () => LayoutWorker;
  };
  const worker = new Worker();
  return new Promise((done, failed) => {
    worker.onmessage = ({ data }) => {
      if (data.id !== 1) return;
      if (data.data) done(data.data);
      else
        failed(
          new Error(say`The drawing could not be laid out: ${data.error?.message ?? say`no reason given`}.`),
        );
    };
    // The same two messages that the page sends to the worker in the browser.
    worker.postMessage({ id: 0, cmd: 'register', algorithms: ['layered'] });
    worker.postMessage({ id: 1, cmd: 'layout', graph, layoutOptions: {}, options: {} });
  });
}
