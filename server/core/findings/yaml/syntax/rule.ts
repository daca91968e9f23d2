import type { ErrorCode } from 'yaml';
import type { Analysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import { pick } from '../../../pick.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';
import { findOpenBracket } from './brackets.ts';

/** What the parser noticed, by its code, in the words of somebody who has the text before them. */
const SYNTAX: Readonly<Record<string, string>> = {
  MISSING_COLON: later`This key has no colon yet. Write a colon and a blank after it, then its value.`,
  MISSING_DASH: later`This line stands in a list and has no dash. Write "- " before it.`,
  MISSING_KEY: later`Nothing stands before this colon, so what follows it has no name and is not read. Write its name before the colon.`,
  KEY_NOT_TEXT: later`A key must be one word, not a list or a group of keys. Perhaps a bracket stands in the wrong place.`,
  ALIAS_PROPS: later`An alias (*name) takes no anchor or tag of its own. Remove what stands before it.`,
  BAD_ALIAS: later`The name of an alias (*) or anchor (&) is missing or odd. Put the text in quotes if no alias is meant.`,
  BAD_COLLECTION_TYPE: later`A tag (!) says that something else stands here than does. Remove the tag.`,
  BAD_DIRECTIVE: later`A line that begins with % is a directive, and this one is not known. Remove it.`,
  BAD_DQ_ESCAPE: later`A backslash in double quotes begins an escape, and this one is not known. Use single quotes or double it.`,
  BAD_INDENT: later`This line is indented unlike its neighbours, so it belongs to nothing. Bring it in line with them.`,
  BAD_PROP_ORDER: later`An anchor (&) or tag (!) stands in the wrong place. Put it right before the value.`,
  BAD_SCALAR_START: later`A value cannot begin with this sign. Put the value in quotes.`,
  BLOCK_AS_IMPLICIT_KEY: later`There are two keys on this line. Start a new line for the second one, or put the value in quotes.`,
  BLOCK_IN_FLOW: later`A list with dashes or an indented group cannot stand inside brackets. Write it with brackets as well.`,
  DUPLICATE_KEY: later`This key stands here twice. Remove one of the two.`,
  IMPOSSIBLE: later`The text cannot be read from here on. Compare this line with its neighbours.`,
  KEY_OVER_1024_CHARS: later`This key is longer than 1024 characters. Probably a colon or a line end is missing before it.`,
  MISSING_CHAR: later`A closing bracket, a quote, a comma or a blank is missing. Look at this place and at the line before it.`,
  MULTILINE_IMPLICIT_KEY: later`A key must stand on one line. Probably the colon after it is missing.`,
  MULTIPLE_ANCHORS: later`A value can have one anchor (&) only. Remove one of them.`,
  MULTIPLE_DOCS: later`A second document begins here, and nothing of it is read. A definition is one document: remove the line with “---” or “...” that begins it.`,
  MULTIPLE_TAGS: later`A value can have one tag (!) only. Remove one of them.`,
  NON_STRING_KEY: later`A key must be a text. Put it in quotes.`,
  RESOURCE_EXHAUSTION: later`This part of the text is nested so deeply that it is not read. Close the brackets that are open.`,
  TAB_AS_INDENT: later`A tab stands where YAML wants blanks. Replace it by blanks.`,
  TAG_RESOLVE_FAILED: later`Tags (!) are not used in definitions. Remove it, or put the value in quotes.`,
  UNEXPECTED_TOKEN: later`This sign is not expected here. Probably something before it was not closed, or the value needs quotes.`,
} satisfies Record<ErrorCode | 'MISSING_COLON' | 'MISSING_DASH' | 'MISSING_KEY' | 'KEY_NOT_TEXT', string>;

const OTHERWISE = later`This cannot be read as YAML. Compare the line with its neighbours: brackets, quotes, colons, blanks.`;

const unreadable = fromProblems('yaml/syntax');

export const rule: Rule = {
  code: 'yaml/syntax',
  severity: 'error',
  title: later`The text cannot be read as YAML`,
  find: findUnreadable,
  say: (data) => {
    const what = word(data, 'what');
    const open = word(data, 'open');
    if (open !== '')
      return say`This ${open} is never closed, so it is not known what belongs to it. Write ${CLOSERS[open] ?? 'the closing one'} where it ends.`;
    return said(pick(SYNTAX, what) ?? OTHERWISE);
  },
};

const CLOSERS: Readonly<Record<string, string>> = { '{': '}', '[': ']' };

/** The parser stops where it is lost; where a bracket was left open before that, the bracket is what to look at. */
function* findUnreadable(analysis: Analysis): Iterable<Found> {
  for (const found of unreadable(analysis)) {
    const { block } = found.at;
    const bracket = BY_BRACKET.has(word(found.data, 'what')) ? findOpenBracket(block.text) : undefined;
    if (!bracket) yield found;
    else {
      const { at, open, end } = bracket;
      const fixes = [
        {
          title: say`Write ${CLOSERS[open]} at the end of the line`,
          edits: [{ at: { block, from: end, to: end }, text: ` ${CLOSERS[open]}` }],
          safe: false,
        },
      ];
      yield { at: { block, from: at, to: at + 1 }, data: { ...found.data, open }, fixes };
    }
  }
}

/** What the parser says when brackets do not match. */
const BY_BRACKET: ReadonlySet<string> = new Set([
  'BAD_INDENT',
  'MISSING_CHAR',
  'UNEXPECTED_TOKEN',
  'BLOCK_IN_FLOW',
  'BLOCK_AS_IMPLICIT_KEY',
]);
