import type { Random } from '../support/random.ts';
import type { Written } from './grammar.ts';

/** How much of what is written is spoilt: once in so many values. */
const SPOILT = 60;

/**
 * Writes a value as YAML the way different hands do it: blocks or braces, quotes, comments, anchors and aliases, blanks
 * and tabs, and now and then a slip.
 */
export function writeYaml(value: Written, random: Random): string {
  const hand = { random, anchors: 0 };
  return `${writeBlock(value, 0, hand)}\n`;
}

interface Hand {
  readonly random: Random;
  anchors: number;
}

const once = ({ random }: Hand, inHowMany: number): boolean => random.below(inHowMany) === 0;

function writeBlock(value: Written, indent: number, hand: Hand): string {
  if (value.kind === 'word') return writeWord(value.text, hand);
  if (indent > 0 && once(hand, 4)) return writeFlow(value, hand);
  const step = once(hand, 12) ? 1 + hand.random.below(4) : 2;
  const pad = ' '.repeat(indent);
  const lines =
    value.kind === 'map'
      ? value.pairs.map(
          ([key, inner]) => `${pad}${writeKey(key, hand)}:${writeUnder(inner, indent + step, hand)}`,
        )
      : value.items.map((inner) => `${pad}-${writeUnder(inner, indent + step, hand)}`);
  return slip(lines, hand).join(once(hand, 200) ? '\r\n' : '\n');
}

function writeUnder(value: Written, indent: number, hand: Hand): string {
  const anchor = anchorOf(hand);
  if (value.kind === 'word' || once(hand, 4)) return ` ${anchor}${writeFlow(value, hand)}${commentOf(hand)}`;
  const isEmpty = value.kind === 'map' ? value.pairs.length === 0 : value.items.length === 0;
  return isEmpty
    ? ` ${anchor}`
    : `${anchor ? ` ${anchor.trim()}` : ''}${commentOf(hand)}\n${writeBlock(value, indent, hand)}`;
}

function writeFlow(value: Written, hand: Hand): string {
  if (value.kind === 'word') return writeWord(value.text, hand);
  const close = once(hand, SPOILT) ? '' : undefined;
  if (value.kind === 'list')
    return `[${value.items.map((item) => writeFlow(item, hand)).join(', ')}${close ?? ']'}`;
  const pairs = value.pairs.map(([key, inner]) => `${writeKey(key, hand)}: ${writeFlow(inner, hand)}`);
  return `{ ${pairs.join(', ')}${close ?? ' }'}`;
}

function writeWord(text: string, hand: Hand): string {
  if (hand.anchors > 0 && once(hand, 30)) return `*a${hand.random.below(hand.anchors + 1)}`;
  if (once(hand, 12)) return JSON.stringify(text);
  if (once(hand, 12)) return `'${text.replaceAll("'", "''")}'`;
  return once(hand, SPOILT)
    ? `${text}${hand.random.oneOf(['"', "'", '}', ']', ':', ' #', '\t', '&', '!!str '])}`
    : text;
}

function writeKey(key: string, hand: Hand): string {
  if (hand.anchors > 0 && once(hand, 40)) return '<<';
  return once(hand, 20) ? JSON.stringify(key) : key;
}

function anchorOf(hand: Hand): string {
  if (!once(hand, 20)) return '';
  hand.anchors += 1;
  return `&a${hand.anchors} `;
}

function commentOf(hand: Hand): string {
  return once(hand, 15)
    ? hand.random.oneOf([' # note', '  #', ' # fettle: allow wire/drop because', ' # fettle allow-file name'])
    : '';
}

/** Lines out of place: indented otherwise, with a tab, doubled, left out, or a mark of a merge or a document between. */
function slip(lines: readonly string[], hand: Hand): readonly string[] {
  if (!once(hand, SPOILT)) return lines;
  const at = hand.random.below(lines.length + 1);
  const line = lines[at] ?? '';
  const other = hand.random.oneOf([
    ` ${line}`,
    `\t${line}`,
    `${line}\n${line}`,
    '',
    `---\n${line}`,
    `<<<<<<< a\n${line}\n=======\n${line}\n>>>>>>> b`,
    `%YAML 1.2\n${line}`,
  ]);
  return lines.with(Math.min(at, lines.length - 1), other);
}
