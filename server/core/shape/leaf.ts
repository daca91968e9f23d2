import { AXES, type Leaf, ROLE_TEXTS, ROLES } from '../../../schemas/index.ts';
import { say } from '../language/say.ts';
import type { Fix, Problem } from '../problem.ts';
import { type Scalar, spanWithin } from '../syntax/node.ts';
import {
  type Reading,
  readQuantity,
  readRatio,
  readSpanOrQuantity,
  readWire,
  type ValueProblem,
} from '../units/index.ts';
import { readMains } from './mains.ts';
import { nearestWord, sameWord } from './spelling.ts';
import { describeLeaf, describeNode } from './words.ts';

/** What came of reading a scalar. A value with problems was understood but is doubtful; without a value it was not. */
export interface LeafReading {
  readonly value?: unknown;
  readonly problems: readonly Problem[];
}

const kept = new WeakMap<Leaf, WeakMap<Scalar, LeafReading>>();

/**
 * Reads a scalar as its leaf says, once: the checker and the model share the reading, which lives as long as the
 * scalar does. Never throws.
 */
export function readLeaf(scalar: Scalar, leaf: Leaf): LeafReading {
  let readings = kept.get(leaf);
  if (!readings) {
    readings = new WeakMap();
    kept.set(leaf, readings);
  }
  let reading = readings.get(scalar);
  if (!reading) {
    reading = read(scalar, leaf);
    readings.set(scalar, reading);
  }
  return reading;
}

function read(scalar: Scalar, leaf: Leaf): LeafReading {
  const { text } = scalar;
  switch (leaf.kind) {
    case 'quantity':
      return fromReading(scalar, readQuantity(text, leaf));
    case 'span':
      return fromReading(scalar, readSpanOrQuantity(text, leaf));
    case 'ratio':
      return fromReading(scalar, readRatio(text));
    case 'wire':
      return fromReading(scalar, readWire(text));
    case 'mains': {
      const mains = readMains(text);
      return mains ? fromReading(scalar, mains) : refuse(scalar, leaf);
    }
    case 'count':
      return readNumber(scalar, leaf, /^[+-]?\d+$/);
    case 'number':
      return readNumber(scalar, leaf, /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/);
    case 'choice':
      return readChoice(scalar, Object.keys(leaf.choices));
    case 'yes-no': {
      const { value, problems } = readChoice(scalar, ['yes', 'no']);
      return value === undefined ? { problems } : { value: value === 'yes', problems };
    }
    case 'role':
      return readChoice(scalar, ROLE_TEXTS, [...ROLES.keys()]);
    case 'name':
      return leaf.of === 'axis' ? readChoice(scalar, AXES) : readPattern(scalar, leaf, namePattern(leaf.of));
    case 'terminal':
      return readPattern(scalar, leaf, leaf.of === 'machine' ? /^[^\s.,]+\.[^\s,]+$/ : /^[^\s,]+$/);
    case 'date':
      return isDate(text) ? { value: text, problems: [] } : refuse(scalar, leaf);
    case 'text':
    case 'setting-value':
    // The ends of a link are read by the model, which knows what they join.
    case 'link':
      return readPattern(scalar, leaf, /\S/);
  }
}

/** The problems of a value with their places in the text. */
function fromReading(scalar: Scalar, { value, problems }: Reading<unknown>): LeafReading {
  return { value, problems: problems.map((problem) => placeProblem(scalar, problem)) };
}

/** Puts a problem of a value, and what repairs it, where the value stands in its file. */
export function placeProblem(scalar: Scalar, problem: ValueProblem): Problem {
  const only = problem.repairs.length === 1 && CLEAR.has(problem.code);
  // Where the text was escaped or folded its letters have no places of their own to be edited at.
  const repairs = scalar.textFrom === undefined ? [] : problem.repairs;
  const fixes = repairs.map(
    (repair): Fix => ({
      title: say`Change to ${repair.label}`,
      edits: [{ at: spanWithin(scalar, repair.from, repair.to), text: repair.text }],
      safe: only,
    }),
  );
  return { code: problem.code, at: spanWithin(scalar, problem.from, problem.to), data: problem.data, fixes };
}

/** Problems whose only repair says the same thing in the right spelling. */
const CLEAR: ReadonlySet<string> = new Set(['unit/prefix-case', 'unit/comma-decimal', 'unit/not-a-quantity']);

function readNumber(
  scalar: Scalar,
  leaf: Extract<Leaf, { kind: 'count' | 'number' }>,
  pattern: RegExp,
): LeafReading {
  if (!pattern.test(scalar.text)) {
    // A number with a comma has an explanation of its own.
    const { problems } = readQuantity(scalar.text, { dimension: 'number', units: [''] });
    const comma = problems.filter((problem) => problem.code === 'unit/comma-decimal');
    return comma.length > 0 ? fromReading(scalar, { problems: comma }) : refuse(scalar, leaf);
  }
  const value = Number(scalar.text);
  return value >= leaf.least && value <= leaf.most ? { value, problems: [] } : refuse(scalar, leaf);
}

/** What people write for the words that YAML 1.1 took for truth values. */
const TRUTHS: ReadonlyMap<string, string> = new Map([
  ['true', 'yes'],
  ['on', 'yes'],
  ['false', 'no'],
  ['off', 'no'],
]);

/** @param shown the choices in short, for the message */
function readChoice(
  scalar: Scalar,
  choices: readonly string[],
  shown: readonly string[] = choices,
): LeafReading {
  const { text } = scalar;
  if (choices.includes(text)) return { value: text, problems: [] };
  const truth = TRUTHS.get(text.toLowerCase());
  const nearest = truth !== undefined && choices.includes(truth) ? truth : nearestWord(text, choices);
  const data = { found: text.slice(0, 60), choices: shown, ...(nearest !== undefined && { nearest }) };
  const fixes =
    nearest === undefined ? [] : [renameTo(scalar, nearest, truth === nearest || sameWord(text, nearest))];
  return { problems: [{ code: 'shape/not-a-choice', at: scalar, data, fixes }] };
}

/** Replaces a whole scalar by a word of the format, which never needs quotes. */
export function renameTo(scalar: Scalar, word: string, safe: boolean): Fix {
  return { title: say`Change to ${word}`, edits: [{ at: scalar, text: word }], safe };
}

function readPattern(scalar: Scalar, leaf: Leaf, pattern: RegExp): LeafReading {
  return pattern.test(scalar.text) ? { value: scalar.text, problems: [] } : refuse(scalar, leaf);
}

function namePattern(of: 'part' | 'sheet' | 'circuit'): RegExp {
  return of === 'sheet' ? /\S/ : /^[^\s.,]+$/;
}

function refuse(scalar: Scalar, leaf: Leaf): LeafReading {
  const data = { expected: describeLeaf(leaf), found: describeNode(scalar) };
  return { problems: [{ code: 'shape/wrong-type', at: scalar, data }] };
}

/** A day that the calendar has, in ISO 8601 form. */
function isDate(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days;
}
