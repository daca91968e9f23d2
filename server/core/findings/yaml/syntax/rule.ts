import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

/** What the parser noticed, by its code, in the words of somebody who has the text before them. */
export const SYNTAX: Readonly<Record<string, string>> = {
  MISSING_COLON: 'This key has no colon yet. Write a colon and a blank after it, then its value.',
  MISSING_DASH: 'This line stands in a list and has no dash. Write "- " before it.',
  KEY_NOT_TEXT:
    'A key must be one word, not a list or a group of keys. Perhaps a bracket stands in the wrong place.',
  ALIAS_PROPS: 'An alias (*name) takes no anchor or tag of its own. Remove what stands before it.',
  BAD_ALIAS:
    'The name of an alias (*) or anchor (&) is missing or odd. Put the text in quotes if no alias is meant.',
  BAD_COLLECTION_TYPE: 'A tag (!) says that something else stands here than does. Remove the tag.',
  BAD_DIRECTIVE: 'A line that begins with % is a directive, and this one is not known. Remove it.',
  BAD_DQ_ESCAPE:
    'A backslash in double quotes begins an escape, and this one is not known. Use single quotes or double it.',
  BAD_INDENT:
    'This line is indented unlike its neighbours, so it belongs to nothing. Bring it in line with them.',
  BAD_PROP_ORDER: 'An anchor (&) or tag (!) stands in the wrong place. Put it right before the value.',
  BAD_SCALAR_START: 'A value cannot begin with this sign. Put the value in quotes.',
  BLOCK_AS_IMPLICIT_KEY:
    'There are two keys on this line. Start a new line for the second one, or put the value in quotes.',
  BLOCK_IN_FLOW:
    'A list with dashes or an indented group cannot stand inside brackets. Write it with brackets as well.',
  DUPLICATE_KEY: 'This key stands here twice. Remove one of the two.',
  IMPOSSIBLE: 'The text cannot be read from here on. Compare this line with its neighbours.',
  KEY_OVER_1024_CHARS:
    'This key is longer than 1024 characters. Probably a colon or a line end is missing before it.',
  MISSING_CHAR:
    'A closing bracket, a quote, a comma or a blank is missing. Look at this place and at the line before it.',
  MULTILINE_IMPLICIT_KEY: 'A key must stand on one line. Probably the colon after it is missing.',
  MULTIPLE_ANCHORS: 'A value can have one anchor (&) only. Remove one of them.',
  MULTIPLE_DOCS: 'A second document begins at "---". A definition is one document: remove that line.',
  MULTIPLE_TAGS: 'A value can have one tag (!) only. Remove one of them.',
  NON_STRING_KEY: 'A key must be a text. Put it in quotes.',
  RESOURCE_EXHAUSTION:
    'This part of the text is nested so deeply that it is not read. Close the brackets that are open.',
  TAB_AS_INDENT: 'A tab stands where YAML wants blanks. Replace it by blanks.',
  TAG_RESOLVE_FAILED: 'Tags (!) are not used in definitions. Remove it, or put the value in quotes.',
  UNEXPECTED_TOKEN:
    'This sign is not expected here. Probably something before it was not closed, or the value needs quotes.',
};

const OTHERWISE =
  'This cannot be read as YAML. Compare the line with its neighbours: brackets, quotes, colons, blanks.';

export const rule: Rule = {
  code: 'yaml/syntax',
  severity: 'error',
  title: 'The text cannot be read as YAML',
  find: fromProblems('yaml/syntax'),
  say: (data) => {
    const what = word(data, 'what');
    const words = (Object.hasOwn(SYNTAX, what) ? SYNTAX[what] : undefined) ?? OTHERWISE;
    return words;
  },
};
