import type { Evaluated, Reads } from './version.ts';

/** A result, and what it rests on; undefined where it rests on something that is never the same again. */
export interface Memo {
  readonly result: unknown;
  readonly reads: Reads | undefined;
  /** The number of the last version that it was found to hold in. */
  heldIn: number;
}

/** The results of a fact that is worked out for single keys. */
interface ByKey {
  /** The last version in which one was kept. */
  version: number;
  kept: Map<unknown, Memo>;
  /** What was kept in the version before that. */
  past: ReadonlyMap<unknown, Memo>;
}

const NONE: ReadonlyMap<unknown, Memo> = new Map();

/**
 * The results of one file, by fact and key. They are handed from each version to the next as they are, so that what nobody
 * asked of a version may still be asked of a later one; of keys only those stay that were asked for.
 */
export class Memos {
  // Most facts have one result, and thousands of edits ask for hundreds of them: each has its place for good.
  private readonly single = new Map<Evaluated, Memo>();
  private readonly byKey = new Map<Evaluated, ByKey>();

  /** What was kept in a version. */
  kept(version: number, fact: Evaluated, key: unknown): Memo | undefined {
    if (key === undefined) {
      const memo = this.single.get(fact);
      return memo?.heldIn === version ? memo : undefined;
    }
    const found = this.byKey.get(fact);
    return found?.version === version ? found.kept.get(key) : undefined;
  }

  /** What was kept in a version before that one. */
  inherited(version: number, fact: Evaluated, key: unknown): Memo | undefined {
    if (key === undefined) {
      const memo = this.single.get(fact);
      return memo?.heldIn === version ? undefined : memo;
    }
    const found = this.byKey.get(fact);
    return found?.version === version ? found.past.get(key) : found?.kept.get(key);
  }

  /** Keeps what was worked out in a version, or was found to hold in it still. */
  keep(version: number, fact: Evaluated, key: unknown, memo: Memo): void {
    memo.heldIn = version;
    if (key === undefined) {
      this.single.set(fact, memo);
      return;
    }
    const found = this.byKey.get(fact);
    if (!found) this.byKey.set(fact, { version, kept: new Map([[key, memo]]), past: NONE });
    else {
      if (found.version !== version) {
        found.past = found.kept;
        found.kept = new Map();
        found.version = version;
      }
      found.kept.set(key, memo);
    }
  }

  /** To be called when another version begins: what was kept before the last one is not asked for any more. */
  forgetPast(): void {
    for (const found of this.byKey.values()) found.past = NONE;
  }
}
