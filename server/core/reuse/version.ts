import { type Memo, Memos } from './memos.ts';

/**
 * What makes an edit cheap: results remember what they were worked out from, and the next version of a file takes over
 * those for which all of that is still the same.
 *
 * A version of a file offers its content in a few sources: its parts, its links, its values. Whoever reads from one of
 * them while a fact is worked out is noted as resting on what was read. See fact.ts.
 */

/** One kind of content of a version, such as its parts. Those with keys are noted key by key, or as a whole. */
export interface Source {
  readonly name: string;
}

/** Stands for all of a source: what reads it whole rests on every entry. */
export const WHOLE = Symbol('whole');

/** What a result rests on: each source once, in the order in which they were first read, and there by key what was read. */
export type Reads = readonly ReadSource[];

interface ReadSource {
  readonly source: Source | Evaluated;
  readonly byKey: Map<unknown, unknown>;
}

/** Something that is worked out from a version when asked for: results may rest on it as they do on a source. */
export interface Evaluated {
  readonly evaluate: (version: Version, key: unknown) => unknown;
  /** The keys under which there is something else than in the version before; undefined where that is not known. */
  readonly changedKeys?: (version: Version) => ReadonlySet<unknown> | undefined;
}

let versions = 0;
const NOTHING: ReadonlySet<unknown> = new Set();

/** One version of one file: its content by source, and what was worked out from it. */
export class Version {
  readonly number = ++versions;
  /** The number of the version before. */
  private readonly follows: number | undefined;
  private readonly content = new Map<Source, unknown>();
  private readonly promised = new Map<Source, () => void>();
  private readonly changed = new Map<Source | Evaluated, ReadonlySet<unknown>>();
  private past: ReadonlyMap<Source, unknown>;
  private memos = new Memos();
  /** What facts are worked out from; each kind of fact knows which of them it wants. */
  readonly hosts = new Map<string, unknown>();
  /** Whether results note what they rest on: not where no version follows. */
  readonly isFollowed: boolean;

  /**
   * @param before the version before, whose results may hold in this one too. It gives them away: a finding may refer to
   * the version that it was made in, and each version would keep the one before it in memory for ever.
   * @param isFollowed false for the only version that there will be of a text
   */
  constructor(before?: Version, isFollowed = true) {
    this.isFollowed = isFollowed;
    this.past = before?.content ?? new Map();
    if (!before) return;
    this.follows = before.number;
    this.memos = before.memos;
    this.memos.forgetPast();
    before.memos = new Memos();
    before.past = new Map();
  }

  /**
   * Takes content in. Where it says the same as in the version before, the object of that version stays.
   * @param compare the keys under which there is something else, for content with keys: what rests on others need not
   * be looked at then
   * @returns the object that stands for it from now on
   */
  put<T>(
    source: Source,
    value: T,
    isSame: (before: T, now: T) => boolean,
    compare?: (before: T, now: T) => ReadonlySet<unknown>,
  ): T {
    const before = this.past.get(source) as T | undefined;
    const kept = before !== undefined && isSame(before, value) ? before : value;
    this.content.set(source, kept);
    if (before !== undefined && kept === before) this.noteChanged(source, NOTHING);
    else if (before !== undefined && compare) this.noteChanged(source, compare(before, kept));
    return kept;
  }

  /**
   * Takes content in when somebody first asks for it, for what not every version is asked.
   * @param putAll puts all of these sources
   */
  promise(sources: readonly Source[], putAll: () => void): void {
    for (const source of sources) this.promised.set(source, putAll);
  }

  private contentOf(source: Source): unknown {
    if (!this.content.has(source)) this.promised.get(source)?.();
    return this.content.get(source);
  }

  /** Whether something that held in a version of that number held in the one before this. */
  comesAfter(number: number): boolean {
    return number === this.follows;
  }

  /**
   * Notes the keys under which there is something else than in the version before. They stand here and not with what they
   * are of: that is taken over by the versions to come, which know of changes of their own.
   */
  noteChanged(source: Source | Evaluated, keys: ReadonlySet<unknown>): void {
    this.changed.set(source, keys);
  }

  /** The keys that were noted of a source or a fact. */
  notedChanges(source: Source | Evaluated): ReadonlySet<unknown> | undefined {
    return this.changed.get(source);
  }

  /** The keys of a source or a fact under which there is something else than in the version before, where that is known. */
  changedKeys(source: Source | Evaluated): ReadonlySet<unknown> | undefined {
    if ('evaluate' in source) return source.changedKeys?.(this);
    this.contentOf(source);
    return this.notedChanges(source);
  }

  /** What the version before held in a source; of what it only promised, nothing until somebody asked it. */
  before(source: Source): unknown {
    return this.past.get(source);
  }

  /** What a version holds under a key of a source, or of a fact. */
  now(source: Source | Evaluated, key: unknown): unknown {
    if ('evaluate' in source) return source.evaluate(this, key);
    const content = this.contentOf(source);
    return key === WHOLE ? content : (content as ReadonlyMap<unknown, unknown> | undefined)?.get(key);
  }

  memoOf(fact: Evaluated, key: unknown): Memo | undefined {
    return this.memos.kept(this.number, fact, key);
  }

  inheritedMemoOf(fact: Evaluated, key: unknown): Memo | undefined {
    return this.memos.inherited(this.number, fact, key);
  }

  keep(fact: Evaluated, key: unknown, memo: Memo): void {
    this.memos.keep(this.number, fact, key, memo);
  }
}
