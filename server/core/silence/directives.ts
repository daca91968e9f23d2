import { splitComment } from '../format/scan.ts';
import { nearestName } from '../nearest.ts';
import { startOfLine } from '../syntax/lines.ts';
import type { Block, Span } from '../syntax/node.ts';
import { rangeOf, type Tree } from '../syntax/tree.ts';

/**
 * What somebody asks for in a comment: `# fettle silence wire/drop: the loom stays as it is`.
 *
 * Behind a line it silences that line; alone on a line, the next line that says something. `silence-file` silences
 * the whole file. Several codes are separated by commas; what follows the colon is the reason.
 */
export interface Directive {
  /** `silence` or `silence-file`, or what comes near to one of them. */
  readonly verb: Word;
  readonly codes: readonly Word[];
  readonly reason: string;
  /** The whole comment. */
  readonly at: Span;
  /** True where nothing else stands on its line. */
  readonly alone: boolean;
}

/** A word of a comment. */
export interface Word {
  readonly text: string;
  readonly at: Span;
}

export const VERBS = ['silence', 'silence-file'] as const;

const DIRECTIVE = /^#[ \t]*fettle[ \t]+([\w-]+)[ \t]*([^:]*)(?::[ \t]*(.*))?$/;

const kept = new WeakMap<Block, readonly Directive[]>();

/** The directives of a text, in its order. */
export function readDirectives(tree: Tree): Directive[] {
  if (!/#[ \t]*fettle[ \t]/.test(tree.text)) return [];
  return tree.blocks.flatMap((block) => {
    let found = kept.get(block);
    if (!found) {
      found = readBlock(block);
      kept.set(block, found);
    }
    return found;
  });
}

function readBlock(block: Block): Directive[] {
  const found: Directive[] = [];
  for (const { 0: line, index } of block.text.matchAll(/[^\r\n]*#[ \t]*fettle[ \t][^\r\n]*/g)) {
    const { code, comment } = splitComment(line);
    const directive = readComment(block, index + code.length, comment.trimEnd(), code.trim() === '');
    if (directive) found.push(directive);
  }
  return found;
}

function readComment(block: Block, from: number, comment: string, alone: boolean): Directive | undefined {
  const match = DIRECTIVE.exec(comment);
  const [, verb = '', list = '', reason = ''] = match ?? [];
  // Anything else that begins like this is a sentence about the tool.
  if (!match || nearestName(verb, VERBS) === undefined) return undefined;
  const span = (start: number, text: string): Word => ({
    text,
    at: { block, from: from + start, to: from + start + text.length },
  });
  const verbAt = comment.indexOf(verb, comment.indexOf('fettle') + 'fettle'.length);
  const listAt = comment.indexOf(list, verbAt + verb.length);
  const codes = [...list.matchAll(/[^\s,]+/g)].map(({ 0: code, index }) => span(listAt + index, code));
  return { verb: span(verbAt, verb), codes, reason, at: span(0, comment).at, alone };
}

/** The line that a directive speaks of, as offsets; undefined for one that stands alone at the end. */
export function lineMeant(tree: Tree, { at, alone }: Directive): { from: number; to: number } | undefined {
  const range = rangeOf(tree, at);
  if (!range) return undefined;
  let from = startOfLine(tree.text, range.from);
  if (alone) {
    const next = /^[ \t]*[^\s#]/m.exec(tree.text.slice(range.to));
    if (!next) return undefined;
    from = range.to + next.index;
  }
  const end = tree.text.indexOf('\n', from);
  return { from, to: end < 0 ? tree.text.length : end };
}
