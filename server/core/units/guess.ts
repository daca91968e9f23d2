import { DIMENSIONS, type DimensionName, sameDimension } from './dimension.ts';
import { findUnit, SIMPLE_SYMBOLS, spellInAscii, type Unit } from './unit.ts';

/** Compound units in everyday use, for suggestions; any other combination is understood all the same. */
const COMPOUNDS = [
  ...['mm/s', 'mm/min', 'm/s', 'm/min', 'in/s', 'in/min', 'ft/min', 'mm/s2', 'm/s2', 'in/s2'],
  ...[
    'rad/s',
    'deg/s',
    'rev/s',
    'deg/s2',
    'rad/s2',
    'rev/s2',
    '/mm',
    '/in',
    '/deg',
    '/rev',
    'mm2',
    'm2',
    'in2',
  ],
  ...['N.m', 'N.cm', 'mN.m', 'ozf.in', 'lbf.in', 'lbf.ft', 'kgf.cm', 'kgf.m'],
  ...['kg.m2', 'kg.cm2', 'kg.mm2', 'g.cm2', 'lb.in2', 'oz.in2', 'N/mm2'],
];

/** The symbols worth suggesting. */
export const SUGGESTED_SYMBOLS: readonly string[] = [...SIMPLE_SYMBOLS, ...COMPOUNDS];

/** Everyday abbreviations that are no unit symbols; lower case. */
const EVERYDAY: ReadonlyMap<string, string> = new Map([
  ...[
    ['sec', 's'],
    ['secs', 's'],
    ['msec', 'ms'],
    ['usec', 'us'],
    ['nsec', 'ns'],
    ['hr', 'h'],
    ['mins', 'min'],
  ],
  ...[
    ['vdc', 'V'],
    ['vac', 'V'],
    ['v dc', 'V'],
    ['v ac', 'V'],
    ['amp', 'A'],
    ['amps', 'A'],
    ['ma dc', 'mA'],
  ],
  ...[
    ['r', 'ohm'],
    ['k', 'kohm'],
    ['meg', 'Mohm'],
    ['"', 'in'],
    ['\u2033', 'in'],
    ["'", 'ft'],
    ['feet', 'ft'],
  ],
  ...[
    ['thou', 'mil'],
    ['inches', 'in'],
    ['c', 'degC'],
    ['f', 'degF'],
    ['celsius', 'degC'],
    ['turn', 'rev'],
  ],
  ...[
    ['nm', 'N.m'],
    ['ncm', 'N.cm'],
    ['mnm', 'mN.m'],
    ['kgcm', 'kgf.cm'],
    ['ozin', 'ozf.in'],
    ['lbin', 'lbf.in'],
  ],
  ...[
    ['rps', 'rev/s'],
    ['r/min', 'rpm'],
    ['u/min', 'rpm'],
    ['ipm', 'in/min'],
    ['ft.lb', 'lbf.ft'],
    ['in.lb', 'lbf.in'],
  ],
  ...[
    ['pct', '%'],
    ['percent', '%'],
    ['sqmm', 'mm2'],
    ['kgs', 'kg'],
    ['lbs', 'lb'],
    ['hz.', 'Hz'],
    ['turns', 'rev'],
  ],
] as [string, string][]);

/** Units by their full names, singular and plural, in either spelling of metre; lower case. */
const BY_NAME: ReadonlyMap<string, string> = new Map(
  SIMPLE_SYMBOLS.flatMap((symbol) => {
    const name = findUnit(symbol)?.name ?? symbol;
    const names = [name, name.replace('metre', 'meter'), name.replace('ampere', 'amp')];
    return names.flatMap((each) => [[each, symbol] as const, [`${each}s`, symbol] as const]);
  }),
);

/** Symbols by their lower-case letters: `mhz` could be MHz, `ma` mA. */
const BY_LETTERS = new Map<string, string[]>();
for (const symbol of SIMPLE_SYMBOLS) {
  const letters = symbol.toLowerCase();
  BY_LETTERS.set(letters, [...(BY_LETTERS.get(letters) ?? []), symbol]);
}

const LONGEST_GUESS = 40;
const MOST_VARIANTS = 16;

/** The other units that the same letters spell in another case: for `mhz` it is MHz. */
export function caseVariants(text: string): Unit[] {
  const symbol = spellInAscii(text);
  if (symbol.length > LONGEST_GUESS) return [];
  return spellParts(symbol, (part) => BY_LETTERS.get(part.toLowerCase()) ?? []).filter(
    (unit) => unit.symbol !== symbol,
  );
}

/** Units that were meant by everyday words and spellings: `sec`, `VDC`, `mm/s^2`, `pulses/mm`, `N m`, `oz-in`. */
export function respell(text: string): Unit[] {
  const plain = spellInAscii(text);
  if (plain.length > LONGEST_GUESS) return [];
  const tidy = plain
    .replace(/\s*(?:\/|\bper\b)\s*/g, '/')
    .replace(/^(?:1|pulses?|steps?|counts?|imp)(?=\/)/i, '')
    .replace(/\^|\*\*/g, '')
    .replace(/\s*[*-]\s*|\s+/g, '.');
  const known = [plain, tidy].flatMap(
    (each) => EVERYDAY.get(each.toLowerCase()) ?? BY_NAME.get(each.toLowerCase()) ?? [],
  );
  const translate = (part: string) => {
    const word = part.toLowerCase();
    return [EVERYDAY.get(word) ?? BY_NAME.get(word) ?? part, ...(BY_LETTERS.get(word) ?? [])];
  };
  const units = [...known.flatMap((symbol) => findUnit(symbol) ?? []), ...spellParts(tidy, translate)];
  return units.filter((unit) => unit.symbol !== plain);
}

/** Units of force for units of mass (`kg.cm` where a torque is meant), of area for units of length. */
export function confusedWith(text: string): Unit[] {
  const forces = new Map([
    ['kg', 'kgf'],
    ['g', 'gf'],
    ['lb', 'lbf'],
    ['oz', 'ozf'],
  ]);
  const units = respell(text).map((unit) => unit.symbol);
  return [spellInAscii(text), ...units].flatMap((symbol) => {
    const forced = spellParts(symbol, (part) => [forces.get(part) ?? part]);
    return [...forced, ...[`${symbol}2`].flatMap((each) => findUnit(each) ?? [])];
  });
}

/** Every unit that comes of translating the parts of a symbol one by one, exponents kept. */
function spellParts(symbol: string, translate: (part: string) => readonly string[]): Unit[] {
  const parts = symbol.split(/([./])/);
  let spelled = [''];
  for (const part of parts) {
    const [, letters = '', exponent = ''] = /^(.*?)([23]?)$/.exec(part) ?? [];
    const spellings = /^[./]?$/.test(part) ? [part] : translate(letters).map((each) => each + exponent);
    spelled = spelled.flatMap((start) => spellings.map((each) => start + each)).slice(0, MOST_VARIANTS);
  }
  return [...new Set(spelled)].flatMap((each) => findUnit(each) ?? []);
}

/** The known units nearest to a misspelt one, nearest first, perhaps of one dimension only; none that is not near. */
export function nearestUnits(text: string, dimension?: DimensionName | readonly DimensionName[]): Unit[] {
  const typed = spellInAscii(text);
  if (typed === '' || typed.length > LONGEST_GUESS) return [];
  const names =
    dimension === undefined || typeof dimension === 'string' ? dimension && [dimension] : dimension;
  const allowed = (unit: Unit) =>
    !names || names.some((name) => sameDimension(DIMENSIONS[name], unit.dimension));
  const meant = [...caseVariants(typed), ...respell(typed), ...confusedWith(typed)];
  const near = SUGGESTED_SYMBOLS.map((symbol) => ({ symbol, steps: countSteps(typed, symbol) }))
    .filter(
      ({ symbol, steps }) => steps <= Math.floor(Math.max(typed.length, symbol.length) / 3) && steps > 0,
    )
    .sort((a, b) => a.steps - b.steps)
    .flatMap(({ symbol }) => findUnit(symbol) ?? []);
  const found = new Map([...meant, ...near].filter(allowed).map((unit) => [unit.symbol, unit]));
  return [...found.values()].slice(0, 3);
}

/** How many letters must be put in, taken out or changed to make one word of the other (Levenshtein distance). */
function countSteps(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (const [line, letter] of [...a].entries()) {
    const next = [line + 1];
    for (let column = 0; column < b.length; column++) {
      const change = (row[column] ?? 0) + (letter === b[column] ? 0 : 1);
      next.push(Math.min(change, (row[column + 1] ?? 0) + 1, (next[column] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** All simple units with their dimension, for completion lists. */
export function listUnits(dimension: DimensionName): string[] {
  const vector = DIMENSIONS[dimension];
  return SUGGESTED_SYMBOLS.filter((symbol) => {
    const unit = findUnit(symbol);
    return unit !== undefined && sameDimension(unit.dimension, vector);
  });
}
