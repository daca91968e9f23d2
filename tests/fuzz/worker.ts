/** Runs one target in a thread of its own, so that a case that never ends can be noticed and ended. */
import { parentPort, workerData } from 'node:worker_threads';
import type { FoundFault, Limits } from './run.ts';
import { runTarget } from './run.ts';
import { TARGETS } from './targets.ts';

/** What the thread is told, and what it tells. */
export interface Order {
  readonly target: string;
  readonly seed: number;
  readonly limits: Limits;
}
export type Told =
  | { readonly kind: 'case'; readonly stored: unknown }
  | { readonly kind: 'batch'; readonly cases: number }
  | { readonly kind: 'done'; readonly cases: number; readonly faults: readonly FoundFault[] };

const { target: name, seed, limits } = workerData as Order;
const target = TARGETS.find((each) => each.name === name);
const tell = (told: Told) => parentPort?.postMessage(told);
if (target) {
  const done = await runTarget(
    target,
    seed,
    limits,
    (stored) => tell({ kind: 'case', stored: stored() }),
    (cases) => tell({ kind: 'batch', cases }),
  );
  await target.stop?.();
  tell({ kind: 'done', ...done });
}
