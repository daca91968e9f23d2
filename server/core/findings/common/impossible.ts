import type { Analysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Circuit } from '../../model/sheet.ts';
import { pick } from '../../pick.ts';
import type { Given } from '../../shape/fields.ts';
import type { Span } from '../../syntax/node.ts';
import type { Quantity } from '../../units/index.ts';
import { ownSheets } from './own-sheets.ts';

/** A figure of a circuit that no part can have, by itself or beside another figure. */
export interface ImpossibleFigure {
  readonly key: string;
  readonly given: Given<Quantity>;
  readonly why: 'negative' | 'none' | 'order' | 'above' | 'rate';
  /** The figure that it contradicts. */
  readonly other:
    | { readonly key: string; readonly text: string; readonly at: Given<Quantity>['at'] }
    | undefined;
  /** The other figure, where exchanging the two puts both right. */
  readonly exchange: Given<Quantity> | undefined;
}

/** The figures by kind that must be above zero: without them there is no such part. */
const ABOVE_ZERO: Readonly<Record<string, readonly string[]>> = {
  'pulled-up-in': ['pull', 'resistance'],
  'pulled-down-in': ['resistance'],
  'opto-in': ['forward'],
  coil: ['voltage', 'resistance'],
  resistor: ['resistance', 'power'],
  fuse: ['rating'],
  winding: ['resistance', 'inductance'],
  'power-out': ['voltage'],
};

/** Pairs by kind of which the first must not be above the second; `exchange` where they were probably mixed up. */
const NOT_ABOVE: Readonly<
  Record<string, readonly (readonly [low: string, high: string, exchange?: true])[]>
> = {
  'pulled-up-in': [
    ['on-below', 'off-above', true],
    ['off-above', 'pull'],
  ],
  'pulled-down-in': [['off-below', 'on-above', true]],
  'opto-in': [
    ['off-at', 'on-at', true],
    ['on-at', 'most'],
  ],
  'sink-out': [['leak', 'current']],
  'source-out': [['leak', 'current']],
  'two-wire-sensor': [
    ['leak', 'current'],
    ['least', 'current'],
  ],
  sensor: [['leak', 'current']],
  'power-out': [['ripple', 'voltage']],
};

const kept = new WeakMap<Circuit, readonly ImpossibleFigure[]>();

/** The impossible figures of a circuit. What is not a quantity, or upside down as a span, is reported by its reader. */
export function impossibleFigures(circuit: Circuit): readonly ImpossibleFigure[] {
  let found = kept.get(circuit);
  if (!found) {
    found = [...signs(circuit), ...orders(circuit), ...drops(circuit), ...rates(circuit)];
    kept.set(circuit, found);
  }
  return found;
}

function signs({ kind, figures }: Circuit): ImpossibleFigure[] {
  const positive = pick(ABOVE_ZERO, kind) ?? [];
  return (figures.node?.pairs ?? []).flatMap(({ key: { text: key } }): ImpossibleFigure[] => {
    const given = figures.quantity(key);
    if (!given || given.value.value > 0) return [];
    if (given.value.value === 0 && !positive.includes(key)) return [];
    const why = given.value.value < 0 ? 'negative' : 'none';
    return [{ key, given, why, other: undefined, exchange: undefined }];
  });
}

function orders({ kind, figures }: Circuit): ImpossibleFigure[] {
  const pairs = Object.hasOwn(NOT_ABOVE, kind) ? (NOT_ABOVE[kind] ?? []) : [];
  return pairs.flatMap(([low, high, exchange]): ImpossibleFigure[] => {
    const [lower, upper] = [figures.quantity(low), figures.quantity(high)];
    if (!lower || !upper || lower.value.value <= upper.value.value || upper.value.value < 0) return [];
    const other = { key: high, text: upper.text, at: upper.at };
    return [{ key: low, given: lower, why: 'order', other, exchange: exchange && upper }];
  });
}

/** What is lost across an output or a sensor comes out of its supply. */
function drops({ figures }: Circuit): ImpossibleFigure[] {
  const [drop, voltage] = [figures.quantity('drop'), figures.span('voltage')];
  if (!drop || !voltage || drop.value.value <= voltage.value.most.value) return [];
  const other = { key: 'voltage', text: voltage.text, at: voltage.at };
  return [{ key: 'drop', given: drop, why: 'above', other, exchange: undefined }];
}

/** Two times fill a pulse; rounding in datasheets makes them a little longer than its period (common practice). */
const ROUNDING = 1.01;

function rates({ figures }: Circuit): ImpossibleFigure[] {
  const rate = figures.quantity('top-rate');
  const [on, off] = [['on-time', 'off-time'] as const, ['least-on', 'least-off'] as const]
    .map((keys) => keys.map((key) => figures.quantity(key)))
    .find(([a, b]) => a && b) ?? [undefined, undefined];
  if (!rate || !on || !off || rate.value.value * (on.value.value + off.value.value) <= ROUNDING) return [];
  const other = { key: 'the time on and off', text: say`${on.text} and ${off.text}`, at: on.at };
  return [{ key: 'top-rate', given: rate, why: 'rate', other, exchange: undefined }];
}

/** Whether a figure of a sheet in the analysed file is told as impossible: that it is implausible as well goes without saying. */
export function isToldImpossible(analysis: Analysis, at: Span): boolean {
  return ownSheets(analysis).some(({ sheet }) =>
    [...sheet.circuits.values()].some((circuit) =>
      impossibleFigures(circuit).some(
        ({ given }) => given.at.block === at.block && given.at.from <= at.to && at.from <= given.at.to,
      ),
    ),
  );
}
