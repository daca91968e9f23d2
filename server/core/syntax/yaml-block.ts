import { parseDocument, Schema } from 'yaml';
import type { Problem } from '../problem.ts';
import type { Block, Node } from './node.ts';
import { type AnchorName, NodeBuilder, nearText } from './node-builder.ts';
import { DEEPEST, isTooDeep } from './too-deep.ts';

/**
 * What one block says. `broken` means that its own YAML has an error, or that something in it has no name; so nothing else
 * should be said about it.
 */
export interface ParsedBlock {
  readonly root: Node | undefined;
  readonly problems: readonly Problem[];
  readonly broken: boolean;
  /** The names of anchors, where they are given (`&a`) and where they are used (`*a`). */
  readonly anchors: readonly AnchorName[];
}

/** One for all blocks, since the library would make it anew for each. */
const SCHEMA = new Schema({ schema: 'core', resolveKnownTags: true });

const parsed = new WeakMap<Block, ParsedBlock>();

/** Parses a block once; its result is kept as long as the block lives. Never throws. */
export function parseBlock(block: Block): ParsedBlock {
  let result = parsed.get(block);
  if (!result) {
    result = isTooDeep(block.text) ? tooDeep(block) : readBlock(block);
    parsed.set(block, result);
  }
  return result;
}

/** Lets go of what a block says, where another one speaks for it. Should somebody ask all the same, it is parsed again. */
export function forgetBlock(block: Block): void {
  parsed.delete(block);
}

function readBlock(block: Block): ParsedBlock {
  const builder = new NodeBuilder(block);
  try {
    const document = parseDocument(block.text, {
      uniqueKeys: false, // the library's check is quadratic; the builder has its own
      prettyErrors: false,
      logLevel: 'error', // warnings are dropped; with 'silent' a second document would be, too
      schema: SCHEMA,
      version: '1.2',
    });
    const error = document.errors[0];
    if (error)
      builder.report('yaml/syntax', error.pos[0], Math.min(error.pos[1], endOfLine(block, error.pos[0])), {
        what: error.code,
        near: nearText(block, error.pos[0]),
      });
    const root = builder.build(document.contents);
    const broken = error !== undefined || builder.lacksKey;
    return { root, problems: builder.problems, broken, anchors: builder.names };
  } catch (failure) {
    if (failure instanceof RangeError) return tooDeep(block);
    throw failure;
  }
}

function tooDeep(block: Block): ParsedBlock {
  const at = { block, from: 0, to: Math.min(block.text.length, 80) };
  return {
    root: undefined,
    problems: [{ code: 'yaml/too-deep', at, data: { deepest: DEEPEST } }],
    broken: true,
    anchors: [],
  };
}

function endOfLine({ text }: Block, at: number): number {
  const end = text.slice(at).search(/[\r\n]/);
  return end < 0 ? text.length : at + end;
}

/** True while the YAML of a block has an error. */
export function isBroken(block: Block): boolean {
  return parsed.get(block)?.broken === true;
}
