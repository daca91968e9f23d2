import { say } from '../../server/core/language/say.ts';
import type { LaidOut, LayoutGraph } from '../../server/core/summary/drawing/layout.ts';

/** Lays graphs out, away from the page's own thread. */
export interface Layouter {
  /** Rejects when the layout fails, takes too long, or is overtaken by `dispose`. */
  readonly layout: (graph: LayoutGraph) => Promise<LaidOut>;
  readonly dispose: () => void;
}

const PATIENCE_MS = 20_000;

interface Job {
  readonly done: (laidOut: LaidOut) => void;
  readonly failed: (error: Error) => void;
  readonly timer: ReturnType<typeof setTimeout>;
}

/**
 * Makes a layouter over the layout library's worker script. The script is fetched as text on first use and started
 * from a blob, since a webview may not start a worker from an address. One that hangs is ended; the next layout
 * starts afresh.
 */
export function createLayouter(address: string): Layouter {
  let script: Promise<string> | undefined;
  let running: Worker | undefined;
  let count = 0;
  const jobs = new Map<number, Job>();

  const start = (blob: string): Worker => {
    const worker = new Worker(blob);
    worker.onmessage = ({
      data,
    }: MessageEvent<{ id: number; data?: LaidOut; error?: { message?: string } }>) => {
      const job = takeJob(jobs, data.id);
      if (data.data) job?.done(data.data);
      else job?.failed(new Error(data.error?.message ?? say`The layout failed.`));
    };
    worker.onerror = (event) => endAll(event.message || say`The layout worker stopped.`);
    // The worker answers every message by its id; the answer to this one, 0, is waited for by nobody.
    worker.postMessage({ id: 0, cmd: 'register', algorithms: ['layered'] });
    return worker;
  };
  const endAll = (why: string): void => {
    running?.terminate();
    running = undefined;
    for (const id of [...jobs.keys()]) takeJob(jobs, id)?.failed(new Error(why));
  };

  return {
    layout: async (graph) => {
      script ??= fetchScript(address);
      const blob = await script.catch((error: unknown) => {
        script = undefined; // So that the next drawing tries again.
        throw error;
      });
      running ??= start(blob);
      const id = ++count;
      const worker = running;
      return new Promise<LaidOut>((done, failed) => {
        const timer = setTimeout(() => endAll(say`The layout took too long.`), PATIENCE_MS);
        jobs.set(id, { done, failed, timer });
        worker.postMessage({ id, cmd: 'layout', graph, layoutOptions: {}, options: {} });
      });
    },
    dispose: () => endAll(say`The drawing was closed.`),
  };
}

function takeJob(jobs: Map<number, Job>, id: number): Job | undefined {
  const job = jobs.get(id);
  clearTimeout(job?.timer);
  jobs.delete(id);
  return job;
}

async function fetchScript(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(say`The layout worker could not be loaded (${response.status}).`);
  return URL.createObjectURL(new Blob([await response.text()], { type: 'text/javascript' }));
}
