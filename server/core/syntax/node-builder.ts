import { type Alias, isAlias, isMap, isPair, isScalar, isSeq, type Scalar as YamlScalar } from 'yaml';
import type { Problem } from '../problem.ts';
import type { Block, ListNode, MapNode, Node, Pair, Scalar, ScalarStyle, Span } from './node.ts';

export interface AnchorName {
  readonly name: string;
  readonly at: Span;
  readonly isGiven: boolean;
}

/** How many nodes aliases may add in one text. */
const MOST_BY_ALIAS = 10_000;

const STYLES: Record<string, ScalarStyle> = {
  PLAIN: 'plain',
  QUOTE_SINGLE: 'single',
  QUOTE_DOUBLE: 'double',
  BLOCK_LITERAL: 'block',
  BLOCK_FOLDED: 'block',
};

/** What stands at a place, up to the end of its line and no more than a few words: texts of one line can be very long. */
export function nearText(block: Block, at: number): string {
  return block.text.slice(at, at + 24).split(/[\r\n]/, 1)[0] ?? '';
}

/** Turns the library's nodes into ours, resolving aliases and merge keys within the block. */
export class NodeBuilder {
  readonly problems: Problem[] = [];
  readonly names: AnchorName[] = [];
  private readonly block: Block;
  private readonly anchors = new Map<string, Node | 'open'>();
  private readonly sizes = new Map<Node, number>();
  private byAlias = 0;
  /** Whether something stands under no key, so that it is lost. */
  lacksKey = false;

  constructor(block: Block) {
    this.block = block;
  }

  report(
    code: string,
    from: number,
    to: number,
    data: Problem['data'] = {},
    related: Problem['related'] = [],
  ): void {
    const length = this.block.text.length;
    const start = Math.min(from, length);
    const at = {
      block: this.block,
      from: start,
      to: Math.min(Math.max(to, start + 1), Math.max(length, start)),
    };
    this.problems.push({ code, at, data, related });
  }

  build(given: unknown): Node | undefined {
    if (isAlias(given)) return this.resolve(given);
    const anchor = (given as { anchor?: string } | null)?.anchor;
    if (anchor) {
      this.anchors.set(anchor, 'open');
      this.noteAnchor(anchor, given);
    }
    const node = this.buildOwn(given);
    if (anchor && node) this.anchors.set(anchor, node);
    return node;
  }

  private buildOwn(given: unknown): Node | undefined {
    if (isScalar(given)) return this.scalar(given);
    if (isMap(given)) return this.map(given.items, given.range, given.flow === true);
    if (isSeq(given)) return this.list(given.items, given.range, given.flow === true);
    return undefined;
  }

  private span(range: readonly number[] | null | undefined): Span {
    return { block: this.block, from: range?.[0] ?? 0, to: range?.[1] ?? 0 };
  }

  private scalar(given: YamlScalar): Scalar | undefined {
    const span = this.span(given.range);
    const text = given.source ?? '';
    const style = STYLES[given.type ?? 'PLAIN'] ?? 'plain';
    if (style === 'plain' && text === '') return undefined; // nothing written yet
    const skip = style === 'single' || style === 'double' ? 1 : 0;
    const verbatim =
      style !== 'block' &&
      this.block.text.startsWith(text, span.from + skip) &&
      span.to - span.from === text.length + 2 * skip;
    return this.sized(
      {
        ...span,
        kind: 'scalar',
        text,
        style,
        textFrom: verbatim ? span.from + skip : undefined,
      },
      1,
    );
  }

  private list(
    items: readonly unknown[],
    range: readonly number[] | null | undefined,
    flow: boolean,
  ): ListNode {
    const built = items.map((item) => this.build(isPair(item) ? undefined : item));
    return this.sized({ ...this.span(range), kind: 'list', items: built, flow }, 1 + this.sumOf(built));
  }

  private map(
    items: readonly unknown[],
    range: readonly number[] | null | undefined,
    flow: boolean,
  ): MapNode {
    const pairs = new Map<string, Pair>();
    const merged: Pair[] = [];
    let last: Pair | undefined;
    for (const item of items) {
      if (!isPair(item)) continue;
      const key = this.build(item.key);
      const whole = flow && isNothingYet(item.value) ? this.joinNumber(last?.value, key) : undefined;
      if (last && whole) {
        const joined: Pair = { key: last.key, value: whole };
        if (pairs.get(last.key.text) === last) pairs.set(last.key.text, joined);
        last = joined;
        continue;
      }
      if (key?.kind !== 'scalar') {
        this.reportKey(item.key, key);
        continue;
      }
      const value = this.build(item.value);
      last = { key, value };
      const earlier = pairs.get(key.text);
      if (key.text === '<<' && key.style === 'plain') merged.push(...pairsOf(value));
      else if (earlier) {
        this.report('yaml/duplicate-key', key.from, key.to, { key: key.text }, [
          { at: earlier.key, note: 'first' },
        ]);
      } else pairs.set(key.text, last);
    }
    for (const pair of merged) if (!pairs.has(pair.key.text)) pairs.set(pair.key.text, pair);
    const all = [...pairs.values()];
    return this.sized(
      { ...this.span(range), kind: 'map', pairs: all, flow },
      1 + this.sumOf(all.flatMap((pair) => [pair.key, pair.value])),
    );
  }

  /**
   * In braces a comma ends a value, so that of `lead: 1,25 mm` the 1 is left, and a key `25 mm` of nothing. What was
   * meant is one number with a comma, and that is what is to be explained.
   */
  private joinNumber(before: Node | undefined, key: Node | undefined): Scalar | undefined {
    if (before?.kind !== 'scalar' || key?.kind !== 'scalar') return undefined;
    if (before.textFrom !== before.from || key.textFrom !== key.from) return undefined;
    if (!/^[+-]?\d[\d.,]*$/.test(before.text) || !/^\d/.test(key.text)) return undefined;
    if (this.block.text.slice(before.to, key.from) !== ',') return undefined;
    return this.sized({ ...before, to: key.to, text: `${before.text},${key.text}` }, 1);
  }

  /** A value without a name, or under something that is none, is in no tree: the block is not whole without it. */
  private reportKey(given: unknown, key: Node | undefined): void {
    const at = key ?? (isScalar(given) ? this.span(given.range) : undefined);
    if (!at) return; // an alias that leads nowhere was told already
    const what = key ? 'KEY_NOT_TEXT' : 'MISSING_KEY';
    this.report('yaml/syntax', at.from, at.to, { what, near: nearText(this.block, at.from) });
    this.lacksKey = true;
  }

  /** The library keeps no place of an anchor; it stands before its value, with at most a tag between. */
  private noteAnchor(name: string, given: unknown): void {
    const end = (given as { range?: readonly number[] | null }).range?.[0] ?? 0;
    const mark = this.block.text.lastIndexOf(`&${name}`, end);
    if (mark < 0) return;
    const from = mark + 1;
    this.names.push({ name, at: { block: this.block, from, to: from + name.length }, isGiven: true });
  }

  private resolve(alias: Alias): Node | undefined {
    const { from, to } = this.span(alias.range);
    const name = alias.source;
    this.names.push({ name, at: { block: this.block, from: from + 1, to }, isGiven: false });
    const target = this.anchors.get(alias.source);
    if (target === undefined || target === 'open') {
      this.report('yaml/alias-unresolved', from, to, {
        name: alias.source,
        cyclic: target === 'open',
        known: [...this.anchors.keys()].slice(0, 20),
      });
      return undefined;
    }
    this.byAlias += this.sizes.get(target) ?? 1;
    if (this.byAlias > MOST_BY_ALIAS) {
      if (!this.problems.some((problem) => problem.code === 'yaml/alias-too-large')) {
        this.report('yaml/alias-too-large', from, to, {
          name: alias.source,
          most: MOST_BY_ALIAS,
        });
      }
      return undefined;
    }
    return target;
  }

  private sized<T extends Node>(node: T, size: number): T {
    this.sizes.set(node, size);
    return node;
  }

  private sumOf(nodes: readonly (Node | undefined)[]): number {
    return nodes.reduce((sum, node) => sum + (node ? (this.sizes.get(node) ?? 1) : 0), 0);
  }
}

/** Whether nothing is written for a key, with or without a colon. */
function isNothingYet(value: unknown): boolean {
  return value === null || value === undefined || (isScalar(value) && (value.source ?? '') === '');
}

/** The pairs that a merge key brings in: of one map, or of a list of maps in their order. */
function pairsOf(node: Node | undefined): readonly Pair[] {
  if (node?.kind === 'map') return node.pairs;
  return node?.kind === 'list' ? node.items.flatMap((item) => pairsOf(item)) : [];
}
