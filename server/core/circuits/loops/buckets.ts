/** Things by number: those of number n stand in `list` from `start[n]` to before `start[n + 1]`, in their order. */
export interface Buckets {
  readonly start: Int32Array;
  readonly list: Int32Array;
}

/**
 * Sorts things by number, in two plain lists, since a list for each of ten thousand nodes would be most of the work.
 * @param numbers all numbers are below this
 * @param numberOf the number of each thing
 * @param things what stands in the buckets
 */
export function sortByNumber(numbers: number, numberOf: Int32Array, things: Int32Array): Buckets {
  const start = new Int32Array(numbers + 1);
  for (const number of numberOf) start[number + 1] = (start[number + 1] ?? 0) + 1;
  for (let number = 0; number < numbers; number++)
    start[number + 1] = (start[number + 1] ?? 0) + (start[number] ?? 0);
  const next = start.slice();
  const list = new Int32Array(things.length);
  for (let place = 0; place < things.length; place++) {
    const number = numberOf[place] ?? 0;
    const to = next[number] ?? 0;
    list[to] = things[place] ?? 0;
    next[number] = to + 1;
  }
  return { start, list };
}
