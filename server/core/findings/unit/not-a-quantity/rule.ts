import { later, said, say } from '../../../language/say.ts';
import { pick } from '../../../pick.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

/** Why a text is no value, by the reader's word for it. What is expected follows where it helps. */
const REASONS: Readonly<Record<string, (typed: string) => string>> = {
  empty: () => say`Nothing stands here.`,
  'no-number': (typed) => say`“${typed}” does not begin with a number.`,
  'too-long': () => say`This is too long to be a value.`,
  malformed: (typed) => say`“${typed}” is no number: it has a sign too many in it.`,
  'too-large': (typed) => say`${typed} is larger than can be computed with.`,
  'too-small': (typed) => say`${typed} is smaller than can be computed with.`,
  'minus-sign': () => say`This is a dash of print and no minus sign. Write the plain sign -.`,
  'not-decimal': (typed) => say`${typed} is not a decimal number.`,
  'digit-groups': (typed) =>
    say`${typed} is written in groups of digits. Write the digits without anything between them.`,
  span: (typed) => say`${typed} is a span from one value to another, and one value belongs here.`,
  'no-span': (typed) => say`“${typed}” is no span.`,
  'span-sign': () => say`The two ends of a span are joined by two dots.`,
  'no-ratio': (typed) => say`“${typed}” is no ratio.`,
  'half-ratio': (typed) => say`${typed} is half a ratio. Write both sides, such as ${typed}:1.`,
  'not-positive': (typed) => say`${typed} cannot be a ratio: both sides must be greater than zero.`,
  'no-cores': () => say`A cable has from 1 to 100 conductors.`,
  'no-wire': (typed) => say`“${typed}” says nothing about a wire that is understood.`,
  'no-gauge': (typed) => say`${typed} is no size of the American wire gauge that is known here (4/0 to 40).`,
  'two-colours': (typed) =>
    say`${typed} is a second colour. Colours of one conductor are written together, such as WHBU.`,
  'no-colour': (typed) => say`“${typed}” is no colour code of IEC 60757. Write ${said(COLOURS)}.`,
};

const COLOURS = later`two letters such as BN, BU or GNYE`;
/** Reasons whose words already say what to write. */
const COMPLETE: ReadonlySet<string> = new Set([
  'minus-sign',
  'digit-groups',
  'half-ratio',
  'no-cores',
  'two-colours',
  'no-colour',
]);

export const VALUE_REASONS: readonly string[] = Object.keys(REASONS);

export const rule: Rule = {
  code: 'unit/not-a-quantity',
  severity: 'error',
  title: later`A value cannot be read`,
  find: fromProblems('unit/not-a-quantity'),
  say: (data) => {
    const reason = word(data, 'reason');
    const words = pick(REASONS, reason)?.(word(data, 'typed')) ?? say`This cannot be read as a value.`;
    const units = word(data, 'units');
    if (COMPLETE.has(reason) || word(data, 'expected') === '') return words;
    const expected = word(data, 'expected');
    const list = units === '' || expected.includes('such as') ? '' : ` (${units})`;
    return say`${words} ${word(data, 'key') || 'This'} needs ${expected}${list}.`;
  },
};
