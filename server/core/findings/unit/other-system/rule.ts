import type { Analysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import type { Fix } from '../../../problem.ts';
import { type Node, type Scalar, type Span, spanWithin, valueUnder } from '../../../syntax/node.ts';
import { findUnit, formatNumber, fromSi, toSi, type Unit } from '../../../units/index.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

type System = 'metric' | 'inch';

/** A length, or something made with one, as it was written. */
interface Measure {
  readonly system: System;
  readonly at: Span;
  readonly number: number;
  readonly unit: Unit;
  readonly text: string;
  readonly verbatim: boolean;
}

export const rule: Rule = {
  code: 'unit/other-system',
  severity: 'hint',
  title: later`An inch value on a metric machine, or the reverse`,
  find: (analysis) => findOther(analysis),
  say: (data) =>
    say`${word(data, 'typed')} is ${said(word(data, 'is'))}, and the other lengths of this machine are ${said(word(data, 'others'))}. It is understood all the same: ${word(data, 'equals')}.`,
};

/** The sections in which a machine's own geometry stands. Wires and datasheets keep the units of their trade. */
const SECTIONS = ['axes', 'handwheel', 'records'] as const;

function* findOther(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const measures = SECTIONS.flatMap((section) => measuresIn(valueUnder(analysis.tree.root, section)));
  const inch = measures.filter(({ system }) => system === 'inch').length;
  const metric = measures.length - inch;
  if (inch === metric) return;
  const usual: System = metric > inch ? 'metric' : 'inch';
  for (const measure of measures) {
    if (measure.system === usual) continue;
    const equals = convert(measure);
    if (equals === undefined) continue;
    const data = { typed: measure.text, is: IS[measure.system], others: OTHERS[usual], equals };
    yield { at: measure.at, data, fixes: fixFor(measure, equals) };
  }
}

const IS = { metric: later`a metric value`, inch: later`an inch value` };
const OTHERS = { metric: later`metric`, inch: later`in inches` };

const kept = new WeakMap<Node, readonly Measure[]>();

function measuresIn(node: Node | undefined): readonly Measure[] {
  if (!node) return [];
  let measures = kept.get(node);
  if (!measures) {
    measures = node.kind === 'scalar' ? readMeasure(node) : childrenOf(node).flatMap(measuresIn);
    kept.set(node, measures);
  }
  return measures;
}

function childrenOf(node: Exclude<Node, Scalar>): readonly (Node | undefined)[] {
  return node.kind === 'map' ? node.pairs.map((pair) => pair.value) : node.items;
}

const FORM = /^([+-]?(?:\d+\.?\d*|\.\d+)) ?(\/?(?:in|ft|mil|mm|cm|um|m)(?:\/(?:min|s2|s))?)$/;

function readMeasure(scalar: Scalar): Measure[] {
  const [text, digits = '', symbol = ''] = FORM.exec(scalar.text) ?? [];
  const unit = text === undefined ? undefined : findUnit(symbol);
  if (text === undefined || !unit) return [];
  const system = /in|ft|mil/.test(symbol.replace('/min', '')) ? 'inch' : 'metric';
  const verbatim = scalar.textFrom !== undefined;
  return [{ system, at: spanWithin(scalar, 0, text.length), number: Number(digits), unit, text, verbatim }];
}

/** The same in the usual unit of the other system. */
function convert({ system, unit, number }: Measure): string | undefined {
  const symbol = unit.symbol.replace(
    /(^\/?)(?:in|ft|mil|mm|cm|um|m)/,
    (_, start: string) => start + (system === 'inch' ? 'mm' : 'in'),
  );
  const other = findUnit(symbol);
  return other && `${formatNumber(fromSi(toSi(number, unit), other), 9)} ${symbol}`;
}

function fixFor({ at, verbatim }: Measure, equals: string): Fix[] {
  return verbatim ? [{ title: say`Convert to ${equals}`, edits: [{ at, text: equals }], safe: false }] : [];
}
