import { type Reading, type Repair, refuse } from './reading.ts';

/** A number at the start of a text. */
export interface ScannedNumber {
  readonly value: number;
  readonly at: readonly [from: number, to: number];
}

/** Digits with a decimal point, perhaps an exponent. A second point belongs to a span: `18..32`. */
const NUMBER = /^[+-]?(?:\d+(?:\.(?!\.)\d*)?|\.\d+)(?:[eE][+-]?\d+)?/;

const LONGEST_TEXT = 200;
const LONGEST_NUMBER = 40;

/**
 * Reads the number with which a text begins. Spellings that look like numbers but are not (`1,5`, `18 000`, `0x1F`,
 * a typographic minus) are explained and, where the meaning is clear, repaired; nothing is guessed.
 */
export function scanNumber(text: string): Reading<ScannedNumber> {
  const from = text.length - text.trimStart().length;
  const whole: [number, number] = [from, Math.max(from, text.trimEnd().length)];
  if (text.length > LONGEST_TEXT) return refuseNumber('too-long', whole, text);
  const rest = text.slice(from, whole[1]);
  const slip = explainSlip(rest, from);
  if (slip !== undefined) return slip;
  const digits = NUMBER.exec(rest)?.[0];
  if (digits === undefined) return refuseNumber(rest === '' ? 'empty' : 'no-number', whole, text);
  const at: [number, number] = [from, from + digits.length];
  const next = rest.slice(digits.length);
  if (/^(?:\.(?!\.)|[\d_'])/.test(next)) return refuseNumber('malformed', whole, text);
  if (digits.length > LONGEST_NUMBER) return refuseNumber('too-long', at, text);
  const value = Number(digits);
  if (!Number.isFinite(value)) return refuseNumber('too-large', at, text);
  if (value === 0 && /^[^eE]*[1-9]/.test(digits)) return refuseNumber('too-small', at, text);
  return { value: { value, at }, problems: [] };
}

/** A problem with a number; `reason` says which, for the message. */
export function refuseNumber<T>(
  reason: string,
  at: readonly [number, number],
  text: string,
  repairs: readonly Repair[] = [],
): Reading<T> {
  // What was typed may be a whole book: a message needs its beginning only.
  return refuse('unit/not-a-quantity', at, { reason, typed: shorten(text.slice(at[0], at[1])) }, repairs);
}

/** The beginning of a text, for messages. */
export function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}

function explainSlip(rest: string, from: number): Reading<ScannedNumber> | undefined {
  const replace = (old: string, text: string, unit: string): Repair => ({
    from,
    to: from + old.length,
    text,
    label: `${text}${unit}`,
  });
  const minus = /^[\u2010-\u2015\u2212\ufe63\uff0d](?=[\d.])/.exec(rest)?.[0];
  if (minus !== undefined) {
    const repair = replace(minus, '-', rest.slice(minus.length));
    return refuseNumber('minus-sign', [from, from + minus.length], minus.padStart(from + minus.length), [
      repair,
    ]);
  }
  const based = /^[+-]?0[xXoObB][\da-fA-F]+/.exec(rest)?.[0];
  if (based !== undefined)
    return refuseNumber('not-decimal', [from, from + based.length], based.padStart(from + based.length));
  const grouped = /^[+-]?(?:\d+(?:_\d+)+|\d{1,3}(?:[ '\u2019\u00a0\u2009\u202f]\d{3})+)(?!\d)(?:\.\d+)?/.exec(
    rest,
  )?.[0];
  if (grouped !== undefined) {
    const repair = replace(grouped, grouped.replace(/[^\d.+-]/g, ''), rest.slice(grouped.length));
    return refuseNumber(
      'digit-groups',
      [from, from + grouped.length],
      grouped.padStart(from + grouped.length),
      [repair],
    );
  }
  const comma = /^[+-]?[\d.,]*/.exec(rest)?.[0] ?? '';
  if (!/\d,\d/.test(comma) || comma.includes('..')) return undefined;
  const readings = readComma(comma);
  const repairs = readings.map((reading) => replace(comma, reading, rest.slice(comma.length)));
  return refuse(
    'unit/comma-decimal',
    [from, from + comma.length],
    { typed: shorten(comma), readings: readings.join(', ') },
    repairs,
  );
}

/** What digits with a comma can mean: the comma as a decimal sign, as a separator of thousands, or either. */
function readComma(text: string): string[] {
  const readings: string[] = [];
  if (/^[+-]?\d*,\d+$/.test(text)) readings.push(text.replace(',', '.'));
  if (/^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/.test(text)) readings.push(text.replaceAll(',', ''));
  if (/^[+-]?[1-9]\d{0,2}(?:\.\d{3})+,\d+$/.test(text))
    readings.push(text.replaceAll('.', '').replace(',', '.'));
  return readings;
}
