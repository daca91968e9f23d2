import { PerformanceObserver } from 'node:perf_hooks';
import v8 from 'node:v8';

/**
 * How much the heap may grow over what lives in it before what is dead is collected, in percent. Left to itself V8 lets it
 * grow to four times as much where the machine has memory to spare, which an editor's other programs could use. Edits of
 * 3,000 lines took no longer of their own thread so, since most of the collecting is done beside it.
 */
const GROWTH = 30;

/**
 * How large each half of the young generation may become, in bytes. V8 would let it grow to several times as much, of which
 * little is gained: with 8 MB edits of 300 lines take about a tenth less and the server up to 40 MB more, and with 16 MB the
 * first findings take half as long again, since every page that is touched first has to be found by the system.
 */
const YOUNG = 4 * 2 ** 20;

/** Keeps the memory of this process near to what it needs. To be called before much is allocated. */
export function boundHeap(): void {
  v8.setFlagsFromString(`--heap-growing-percent=${GROWTH}`);
  // The bound itself could only be set on the command line, which is the editor's. V8 also makes the young generation
  // smaller when little happens, and then it must be able to grow again; so it is looked at after every collection.
  new PerformanceObserver(boundYoung).observe({ type: 'gc' });
}

function boundYoung(): void {
  const both = v8.getHeapSpaceStatistics().find(({ space_name }) => space_name === 'new_space')?.space_size;
  const factor = both !== undefined && both >= 2 * YOUNG ? 1 : 2;
  v8.setFlagsFromString(`--semi-space-growth-factor=${factor}`);
}
