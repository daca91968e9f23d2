import fc from 'fast-check';
import type { Target } from './target.ts';

/** A fault with the smallest case in which it was found. */
export interface FoundFault {
  readonly target: string;
  readonly message: string;
  readonly stack: string;
  readonly stored: unknown;
  /** What finds it again: `--seed`. */
  readonly seed: number;
}

/** When a run ends: after so many cases or so many seconds, whichever comes first. */
export interface Limits {
  readonly cases: number;
  readonly seconds: number;
}

/** Cases in one go; faults are looked for anew in the next, so that one does not hide the others. */
const BATCH = 250;
/** No more is spent on making one fault small. */
const SHRINK_MS = 20_000;

/**
 * Tries cases of a target until a limit is met. Every fault is made small and reported once: those with the same message
 * and the same place in the code are taken for one.
 * @param onCase told of every case before it is tried, for whoever watches for one that never ends
 */
export async function runTarget<Case>(
  target: Target<Case>,
  seed: number,
  limits: Limits,
  onCase: (stored: () => unknown) => void,
  onBatch: (cases: number) => void,
): Promise<{ readonly cases: number; readonly faults: readonly FoundFault[] }> {
  const faults = new Map<string, FoundFault>();
  const end = performance.now() + limits.seconds * 1000;
  let cases = 0;
  for (let batch = 0; cases < limits.cases && performance.now() < end; batch++) {
    let shrinkUntil: number | undefined;
    const tried = async (one: Case): Promise<void> => {
      if (shrinkUntil === undefined) cases += 1;
      else if (performance.now() > shrinkUntil) return;
      onCase(() => target.store(one));
      try {
        await target.check(one);
      } catch (fault) {
        shrinkUntil ??= performance.now() + SHRINK_MS;
        throw fault;
      }
    };
    const settings = { numRuns: Math.min(BATCH, limits.cases - cases), seed: seed + batch };
    const result = await fc.check(fc.asyncProperty(target.cases, tried), settings);
    if (result.failed && result.counterexample) {
      const fault = describe(target, result.errorInstance, result.counterexample[0], settings.seed);
      const key = `${fault.message.replaceAll(/[\d'"].*/gs, '')} ${placeOf(fault.stack)}`;
      if (!faults.has(key)) faults.set(key, fault);
    }
    onBatch(cases);
  }
  return { cases, faults: [...faults.values()] };
}

function describe<Case>(target: Target<Case>, thrown: unknown, one: Case, seed: number): FoundFault {
  const error = thrown instanceof Error ? thrown : new Error(String(thrown));
  return {
    target: target.name,
    message: error.message,
    stack: error.stack ?? '',
    stored: target.store(one),
    seed,
  };
}

/** The first place of the product in a stack, or the first at all. */
function placeOf(stack: string): string {
  const lines = stack.split('\n').filter((line) => line.includes('.ts:'));
  return (lines.find((line) => line.includes('/server/')) ?? lines[0] ?? '').replace(
    /^.*\/(?=(?:server|tests)\/)/,
    '',
  );
}
