import type { Analysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import type { Circuit } from '../../../model/sheet.ts';
import { pick } from '../../../pick.ts';
import type { Fix } from '../../../problem.ts';
import { showsText } from '../../common/edits.ts';
import { type ImpossibleFigure, impossibleFigures } from '../../common/impossible.ts';
import { ownSheets } from '../../common/own-sheets.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/impossible-figure',
  severity: 'error',
  title: later`A figure is one that no part can have`,
  find: findImpossible,
  say: (data) => {
    const figure = say`${word(data, 'key')} ${word(data, 'value')} of ${word(data, 'circuit')}`;
    const other = `${word(data, 'otherKey')} ${word(data, 'otherValue')}`;
    const unusable = say`Nothing that depends on it can be computed until it is put right`;
    switch (data.why) {
      case 'negative':
        return say`${figure} is below zero, which no part has. ${unusable}: look it up in the datasheet.`;
      case 'none':
        return say`${figure} is nothing at all, and there is no such part. ${unusable}: look it up in the datasheet.`;
      case 'rate':
        return say`${figure} does not leave the time for ${word(data, 'otherValue')}, which one pulse takes. One of the three is wrong: look them up in the datasheet.`;
      default:
        return say`${figure} is above ${other}, which cannot be: ${said(word(data, 'reason'))}. ${unusable}: look both up in the datasheet.`;
    }
  },
};

/** Why one figure cannot be above another. */
const REASONS: Readonly<Record<string, string>> = {
  'on-below': later`between the two it would be on and off at once`,
  'off-below': later`between the two it would be on and off at once`,
  'off-at': later`between the two it would be on and off at once`,
  'off-above': later`it would never be off, since it is pulled up no higher`,
  'on-at': later`it would burn out before it turns on`,
  leak: later`it would let more through while it is off than while it is on`,
  least: later`it would need more than it can switch`,
  ripple: later`it would swing by more than it gives`,
  drop: later`more would be lost across it than it is fed with`,
};

function* findImpossible(analysis: Analysis): Iterable<Found> {
  for (const { sheet } of ownSheets(analysis)) {
    for (const circuit of sheet.circuits.values()) {
      for (const figure of impossibleFigures(circuit)) yield describe(circuit, figure);
    }
  }
}

function describe(circuit: Circuit, { key, given, why, other, exchange }: ImpossibleFigure): Found {
  return {
    at: given.at,
    data: {
      key,
      value: given.text,
      circuit: circuit.name,
      why,
      ...(other && { otherKey: other.key, otherValue: other.text }),
      reason: pick(REASONS, key) ?? '',
    },
    related: other ? [{ at: other.at, note: `${other.key} ${other.text}` }] : [],
    fixes: [...exchanged(given, exchange), ...unsigned(why, given)],
  };
}

function exchanged(given: ImpossibleFigure['given'], exchange: ImpossibleFigure['exchange']): Fix[] {
  if (!exchange || !showsText(given.at, given.text) || !showsText(exchange.at, exchange.text)) return [];
  const edits = [
    { at: given.at, text: exchange.text },
    { at: exchange.at, text: given.text },
  ];
  return [{ title: say`Exchange the two`, edits, safe: false }];
}

function unsigned(why: ImpossibleFigure['why'], { at, text }: ImpossibleFigure['given']): Fix[] {
  const positive = text.replace(/^\s*[-−]\s*/, '');
  if (why !== 'negative' || positive === text || !showsText(at, text)) return [];
  return [{ title: say`Change to ${positive}`, edits: [{ at, text: positive }], safe: false }];
}
