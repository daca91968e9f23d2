import fc from 'fast-check';
import type { Leaf } from '../../schemas/index.ts';
import type { Shape } from '../../server/core/shape/shape.ts';
import { machineShape, projectShape, sheetShape } from '../../server/core/shape/shapes.ts';
import { COLOUR_CODES, DIMENSIONS, listUnits } from '../../server/core/units/index.ts';

/** A value as it could be written: words, or a map or a list of such. */
export type Written =
  | { readonly kind: 'word'; readonly text: string }
  | { readonly kind: 'map'; readonly pairs: readonly (readonly [string, Written])[] }
  | { readonly kind: 'list'; readonly items: readonly Written[] };

/** Names that stand for one another, since all definitions share them. */
const NAMES = [
  'panel',
  'drive-x',
  'motor',
  'psu',
  'X',
  'Y',
  'S24',
  'V+',
  'V-',
  'PUL-',
  'A',
  '1',
  'x-pulse',
  'mains',
  '__proto__',
  'constructor',
  'a b',
  '',
];
const SHEETS = [
  'generic/supply-24v',
  'generic/microstep-drive-50v',
  'generic/stepper-57mm-2nm',
  'generic/roller-switch',
  'generic/controller-2-axis',
  'own.part.yaml',
  '../x.part.yaml',
  'generic/none',
];
const ENDS = [
  'psu.V+',
  'psu.V-',
  'panel.S24',
  'drive-x.PUL-',
  'motor.A',
  'mains.L',
  'mains.PE',
  'X.Y',
  'panel.',
  '.V+',
  'panel',
];
const UNITS = [
  ...new Set((Object.keys(DIMENSIONS) as (keyof typeof DIMENSIONS)[]).flatMap((name) => listUnits(name))),
  ...['Mm', 'khz', 'ohms', '%', '°', ''],
];
const FIGURES = [
  '0',
  '1',
  '-1',
  '24',
  '0.5',
  '1e9',
  '1e-9',
  '1e400',
  '.5',
  '5.',
  '1,5',
  '1 000',
  '0x10',
  '007',
  '+3',
  '--4',
  '5V',
  '9'.repeat(40),
];

const word = (text: string): Written => ({ kind: 'word', text });
const pick = (texts: readonly string[]): fc.Arbitrary<Written> => fc.constantFrom(...texts).map(word);

/** A value for a leaf: mostly one that fits, often one that nearly does. */
function leafValue(leaf: Leaf): fc.Arbitrary<Written> {
  const anything = pick([
    ...NAMES,
    ...FIGURES,
    '~',
    'null',
    'yes',
    'no',
    '[]',
    '{}',
    '- ',
    '|',
    'a: b',
    '# x',
    '"',
    "'",
  ]);
  return fc.oneof({ weight: 6, arbitrary: fitting(leaf) }, { weight: 1, arbitrary: anything });
}

function fitting(leaf: Leaf): fc.Arbitrary<Written> {
  const quantity = (units: readonly string[]) =>
    fc
      .tuple(
        fc.constantFrom(...FIGURES),
        fc.oneof(
          { weight: 3, arbitrary: fc.constantFrom(...units) },
          { weight: 1, arbitrary: fc.constantFrom(...UNITS) },
        ),
        fc.constantFrom(' ', '', '  '),
      )
      .map(([figure, unit, blank]) => word(`${figure}${blank}${unit}`));
  switch (leaf.kind) {
    case 'quantity':
      return quantity(leaf.units);
    case 'span':
      return fc
        .tuple(fc.constantFrom(...FIGURES), fc.constantFrom('..', '...', ' - ', ' .. '), quantity(leaf.units))
        .map(([figure, dots, end]) => word(`${figure}${dots}${end.kind === 'word' ? end.text : ''}`));
    case 'ratio':
      return pick(['3:1', '1:0', '1:1', '2.5:1', '3/1', ':', '1:']);
    case 'wire':
      return fc
        .tuple(
          pick(['0.5 mm2', '20 AWG', '4 x 0.75 mm2', '0 mm2', '2 x', 'AWG 20', '']),
          pick([...COLOUR_CODES, 'XX', 'BNBU', 'screened']),
        )
        .map(([size, colour]) =>
          word(
            `${size.kind === 'word' ? size.text : ''} ${colour.kind === 'word' ? colour.text : ''}`.trim(),
          ),
        );
    case 'link':
      return fc
        .tuple(
          fc.constantFrom(...ENDS),
          fc.constantFrom(' -> ', '->', ' - > ', ' => '),
          fc.array(fc.constantFrom(...ENDS), { minLength: 1, maxLength: 3 }),
          fc.constantFrom('', ' BU', ' 0.5 mm2 BN', ','),
        )
        .map(([from, arrow, to, wire]) => word(`${from}${arrow}${to.join(', ')}${wire}`));
    case 'terminal':
      return leaf.of === 'part' ? pick(NAMES) : pick(ENDS);
    case 'name':
      return leaf.of === 'sheet' ? pick(SHEETS) : pick(NAMES);
    case 'text':
      return fc.oneof(
        pick(['Toy lathe', '{x}', '[link](x)', '<b>', '"quoted', "it's", 'a # b', 'Grün 🛠']),
        fc.string({ maxLength: 12 }).map(word),
      );
    case 'count':
    case 'number':
      return pick([...FIGURES, String(leaf.least), String(leaf.most), String(leaf.most + 1)]);
    case 'choice':
      return pick([...Object.keys(leaf.choices), 'none', Object.keys(leaf.choices)[0]?.slice(1) ?? '']);
    case 'date':
      return pick(['2026-03-02', '2026-02-30', '0000-00-00', '2026-3-2', '9999-12-31', 'today']);
    case 'yes-no':
      return pick(['yes', 'no', 'true', 'Yes', 'on']);
    case 'role':
      return pick([
        'pulse X',
        'direction X',
        'enable',
        'limit X',
        'home X',
        'probe',
        'emergency-stop',
        'pulse Q',
        'pulse',
      ]);
    case 'mains':
      return pick(['230 V 50 Hz', '3 x 400 V 50 Hz', '0 V 0 Hz', '230 V', '3 x', '-1 V 50 Hz']);
    case 'setting-value':
      return fc.oneof(
        quantity(['mm/min', '/mm', 'ms', 'V', 'A', 'Hz']),
        pick([...NAMES, 'on', 'off', 'high', 'normally-closed']),
      );
  }
}

/** A value for a shape, not deeper than so many levels: keys that fit, keys that nearly do, and some that do not. */
function valueFor(shape: Shape, depth: number): fc.Arbitrary<Written> {
  if (depth <= 0 && shape.kind !== 'leaf') return pick(['{}', '[]', '~', 'x']);
  switch (shape.kind) {
    case 'leaf':
      return leafValue(shape.leaf);
    case 'either':
      return fc.oneof(...shape.branches.map((branch) => valueFor(branch, depth)));
    case 'list':
      return fc
        .array(valueFor(shape.item, depth - 1), { maxLength: shape.places.length || 5 })
        .map((items) => ({ kind: 'list', items }));
    case 'entries':
      return fc
        .array(fc.tuple(fc.constantFrom(...NAMES), valueFor(shape.value, depth - 1)), { maxLength: 5 })
        .map((pairs) => ({ kind: 'map', pairs }));
    case 'kinds': {
      const kinds = [...shape.kinds.values()];
      return fc.oneof(...kinds.map((kind) => valueFor(kind, depth)));
    }
    case 'map':
      return mapFor(
        [...shape.keys.values()].map(({ name, shape: of }) => [name, of] as const),
        depth,
      );
  }
}

function mapFor(keys: readonly (readonly [string, Shape])[], depth: number): fc.Arbitrary<Written> {
  const misspelt = fc
    .constantFrom(...keys.map(([name]) => name))
    .chain((name) =>
      fc.constantFrom(name.slice(1), `${name}s`, name.toUpperCase(), name.replace('-', '_'), '__proto__'),
    );
  const pair = fc
    .constantFrom(...keys)
    .chain(([name, shape]) =>
      fc.tuple(
        fc.oneof({ weight: 12, arbitrary: fc.constant(name) }, { weight: 1, arbitrary: misspelt }),
        valueFor(shape, depth - 1),
      ),
    );
  return fc
    .array(pair, { minLength: 1, maxLength: Math.min(6, keys.length + 1) })
    .map((pairs) => ({ kind: 'map', pairs }));
}

/** A definition by its grammar: a machine, a sheet or a project. */
export const definitions: fc.Arbitrary<{ readonly file: string; readonly value: Written }> = fc.oneof(
  { weight: 5, arbitrary: valueFor(machineShape, 6).map((value) => ({ file: 'a.machine.yaml', value })) },
  { weight: 3, arbitrary: valueFor(sheetShape, 5).map((value) => ({ file: 'a.part.yaml', value })) },
  { weight: 1, arbitrary: valueFor(projectShape, 4).map((value) => ({ file: '.fettle.yaml', value })) },
);
