import { say } from '../language/say.ts';
import type { Problem } from '../problem.ts';
import { type Scalar, type Span, spanWithin } from '../syntax/node.ts';
import { type TerminalId, terminalId } from './terminal-id.ts';

/** One end of a link: `part.terminal`. */
export interface End {
  readonly part: string;
  readonly terminal: string;
  readonly id: TerminalId;
  readonly at: Span;
  readonly partAt: Span;
  readonly terminalAt: Span;
}

/** What a link's text says. Ends that cannot be read are left out, and there is exactly one problem about the text. */
export interface LinkText {
  readonly from: End | undefined;
  readonly to: readonly End[];
  /** What stands after the last end: a wire or a colour, still as text. */
  readonly wire: { readonly text: string; readonly at: Span } | undefined;
  readonly problem: Problem | undefined;
}

/** Why a link cannot be read; each has its own words in the finding `shape/link`. */
export type LinkFault =
  | 'no-arrow'
  | 'no-start'
  | 'no-end'
  | 'no-terminal'
  | 'no-part'
  | 'chain'
  | 'several-starts';

const ARROW = '->';
/** What people write for an arrow elsewhere. */
const OTHER_ARROWS = /\s(?:=>|→|➔|-->|--|–>|—>|>|-|to)\s/;

const cache = new WeakMap<Scalar, LinkText>();

/** Reads `panel.5V -> drive-x.PUL+, drive-x.DIR+  BN`. Never throws. */
export function readLinkText(scalar: Scalar): LinkText {
  let link = cache.get(scalar);
  if (!link) {
    link = read(scalar);
    cache.set(scalar, link);
  }
  return link;
}

function read(scalar: Scalar): LinkText {
  const { text } = scalar;
  const fault = (
    why: LinkFault,
    from: number,
    to: number,
    extra: Problem['data'] = {},
    fixes: Problem['fixes'] = [],
  ): Problem => ({
    code: 'shape/link',
    at: spanWithin(scalar, from, Math.max(to, from)),
    data: { why, text, ...extra },
    fixes,
  });
  const arrow = text.indexOf(ARROW);
  if (arrow < 0) return { from: undefined, to: [], wire: undefined, problem: noArrow(scalar, fault) };
  const second = text.indexOf(ARROW, arrow + 2);
  if (second >= 0)
    return { from: undefined, to: [], wire: undefined, problem: fault('chain', second, second + 2) };

  const lefts = pieces(text, 0, arrow);
  const rights = pieces(text, arrow + 2, text.length);
  const last = rights.at(-1);
  const wire = last && splitWire(scalar, last);
  if (last && wire) rights[rights.length - 1] = { from: last.from, to: wire.cut };

  const problems: Problem[] = [];
  const readEnd = (piece: Piece, missing: LinkFault): End | undefined => {
    const problem = endProblem(text, piece, missing);
    if (problem)
      problems.push(fault(problem.why, problem.from, problem.to, { end: text.slice(piece.from, piece.to) }));
    return problem ? undefined : endAt(scalar, piece);
  };
  const starts = lefts.map((piece) => readEnd(piece, 'no-start'));
  const ends = rights.map((piece) => readEnd(piece, 'no-end'));
  if (lefts.length > 1) problems.unshift(fault('several-starts', lefts[0]?.from ?? 0, arrow));
  return {
    from: starts[0],
    to: ends.filter((end) => end !== undefined),
    wire: wire && { text: text.slice(wire.from, wire.to), at: spanWithin(scalar, wire.from, wire.to) },
    problem: problems[0],
  };
}

interface Piece {
  readonly from: number;
  readonly to: number;
}

/** The comma-separated pieces of a stretch, trimmed. An empty stretch is one empty piece, since an end is wanted there. */
function pieces(text: string, from: number, to: number): Piece[] {
  const found: Piece[] = [];
  for (let at = from; at <= to; ) {
    const comma = text.indexOf(',', at);
    const end = comma < 0 || comma > to ? to : comma;
    found.push(trim(text, at, end));
    at = end + 1;
  }
  return found;
}

function trim(text: string, from: number, to: number): Piece {
  let start = from;
  let end = to;
  while (start < end && /\s/.test(text[start] ?? '')) start++;
  while (end > start && /\s/.test(text[end - 1] ?? '')) end--;
  return { from: start, to: end };
}

/** Everything after the first blank of the last end describes the wire. */
function splitWire(scalar: Scalar, piece: Piece): { cut: number; from: number; to: number } | undefined {
  const blank = /\s/.exec(scalar.text.slice(piece.from, piece.to));
  if (!blank) return undefined;
  const cut = piece.from + blank.index;
  return { cut, ...trim(scalar.text, cut, piece.to) };
}

function endProblem(
  text: string,
  piece: Piece,
  missing: LinkFault,
): { why: LinkFault; from: number; to: number } | undefined {
  const word = text.slice(piece.from, piece.to);
  if (word === '') return { why: missing, from: piece.from, to: piece.to };
  const dot = word.indexOf('.');
  if (dot < 0 || dot === word.length - 1) return { why: 'no-terminal', from: piece.from, to: piece.to };
  if (dot === 0) return { why: 'no-part', from: piece.from, to: piece.to };
  return undefined;
}

function endAt(scalar: Scalar, piece: Piece): End {
  const dot = scalar.text.indexOf('.', piece.from);
  const part = scalar.text.slice(piece.from, dot);
  const terminal = scalar.text.slice(dot + 1, piece.to);
  return {
    part,
    terminal,
    id: terminalId(part, terminal),
    at: spanWithin(scalar, piece.from, piece.to),
    partAt: spanWithin(scalar, piece.from, dot),
    terminalAt: spanWithin(scalar, dot + 1, piece.to),
  };
}

type Fault = (
  why: LinkFault,
  from: number,
  to: number,
  extra?: Problem['data'],
  fixes?: Problem['fixes'],
) => Problem;

function noArrow(scalar: Scalar, fault: Fault): Problem {
  const other = OTHER_ARROWS.exec(scalar.text);
  if (!other) return fault('no-arrow', 0, scalar.text.length);
  const from = other.index + 1;
  const to = from + other[0].length - 2;
  const at = spanWithin(scalar, from, to);
  const fixes =
    scalar.textFrom === undefined ? [] : [{ title: say`Write ->`, edits: [{ at, text: ARROW }], safe: true }];
  return fault('no-arrow', from, to, { found: other[0].trim() }, fixes);
}
