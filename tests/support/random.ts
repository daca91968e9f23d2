export interface Random {
  /** A whole number from 0 to below the limit. */
  readonly below: (limit: number) => number;
  readonly oneOf: <T>(items: readonly T[]) => T;
}

/** A small seeded generator (mulberry32, public domain), so that a failing run can be repeated. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const below = (limit: number): number => Math.floor(next() * limit);
  return {
    below,
    oneOf: (items) => {
      const item = items[below(items.length)];
      if (item === undefined) throw new Error('nothing to choose from');
      return item;
    },
  };
}
