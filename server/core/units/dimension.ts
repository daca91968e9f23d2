import { later, said, say } from '../language/say.ts';

/**
 * Dimensions: what kind of thing a quantity measures. Two quantities can be compared when their dimensions are equal.
 * Angle counts as a base dimension here, though it does not in the SI, so that rpm is no Hz and /deg is no /mm.
 */

/** Exponents of length, mass, time, current, temperature and angle. */
export type Dimension = readonly [
  length: number,
  mass: number,
  time: number,
  current: number,
  temperature: number,
  angle: number,
];

/** The dimensions that the format speaks of. Where two names share a vector, the first is the one that messages use. */
export const DIMENSIONS = {
  number: [0, 0, 0, 0, 0, 0],
  share: [0, 0, 0, 0, 0, 0],
  length: [1, 0, 0, 0, 0, 0],
  area: [2, 0, 0, 0, 0, 0],
  mass: [0, 1, 0, 0, 0, 0],
  time: [0, 0, 1, 0, 0, 0],
  frequency: [0, 0, -1, 0, 0, 0],
  speed: [1, 0, -1, 0, 0, 0],
  acceleration: [1, 0, -2, 0, 0, 0],
  angle: [0, 0, 0, 0, 0, 1],
  'angular-speed': [0, 0, -1, 0, 0, 1],
  'angular-acceleration': [0, 0, -2, 0, 0, 1],
  'per-length': [-1, 0, 0, 0, 0, 0],
  'per-angle': [0, 0, 0, 0, 0, -1],
  force: [1, 1, -2, 0, 0, 0],
  pressure: [-1, 1, -2, 0, 0, 0],
  torque: [2, 1, -2, 0, 0, 0],
  inertia: [2, 1, 0, 0, 0, 0],
  voltage: [2, 1, -3, -1, 0, 0],
  current: [0, 0, 0, 1, 0, 0],
  resistance: [2, 1, -3, -2, 0, 0],
  inductance: [2, 1, -2, -2, 0, 0],
  capacitance: [-2, -1, 4, 2, 0, 0],
  power: [2, 1, -3, 0, 0, 0],
  temperature: [0, 0, 0, 0, 1, 0],
} as const satisfies Record<string, Dimension>;

export type DimensionName = keyof typeof DIMENSIONS;

/** For each dimension, the words of a message and the symbol of its coherent SI unit. */
const WORDS: Readonly<Record<DimensionName, readonly [words: string, si: string]>> = {
  number: [later`a plain number`, ''],
  share: [later`a share`, ''],
  length: [later`a length`, 'm'],
  area: [later`an area`, 'm2'],
  mass: [later`a mass`, 'kg'],
  time: [later`a time`, 's'],
  frequency: [later`a frequency`, 'Hz'],
  speed: [later`a speed`, 'm/s'],
  acceleration: [later`an acceleration`, 'm/s2'],
  angle: [later`an angle`, 'rad'],
  'angular-speed': [later`a speed of rotation`, 'rad/s'],
  'angular-acceleration': [later`an acceleration of rotation`, 'rad/s2'],
  'per-length': [later`a number per length`, '/m'],
  'per-angle': [later`a number per angle`, '/rad'],
  force: [later`a force`, 'N'],
  pressure: [later`a pressure`, 'Pa'],
  torque: [later`a torque`, 'N.m'],
  inertia: [later`a moment of inertia`, 'kg.m2'],
  voltage: [later`a voltage`, 'V'],
  current: [later`a current`, 'A'],
  resistance: [later`a resistance`, 'ohm'],
  inductance: [later`an inductance`, 'H'],
  capacitance: [later`a capacitance`, 'F'],
  power: [later`a power`, 'W'],
  temperature: [later`a temperature`, 'K'],
};

const NAMES = Object.keys(DIMENSIONS) as readonly DimensionName[];
const BASE_SYMBOLS = ['m', 'kg', 's', 'A', 'K', 'rad'];

/** `a` times `b` to the power of `exponent`: with -1 this divides. */
export function multiplyDimensions(a: Dimension, b: Dimension, exponent = 1): Dimension {
  return [
    a[0] + b[0] * exponent,
    a[1] + b[1] * exponent,
    a[2] + b[2] * exponent,
    a[3] + b[3] * exponent,
    a[4] + b[4] * exponent,
    a[5] + b[5] * exponent,
  ];
}

/** Whether quantities of these dimensions can be compared. */
export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, index) => exponent === b[index]);
}

/** The name of a dimension, or undefined for one that the format does not speak of, such as length per angle. */
export function findDimensionName(dimension: Dimension): DimensionName | undefined {
  return NAMES.find((name) => sameDimension(DIMENSIONS[name], dimension));
}

/** A dimension in the words of a message: "a length", "a voltage"; one without a name by its SI unit. */
export function nameDimension(dimension: Dimension | DimensionName): string {
  const name = typeof dimension === 'string' ? dimension : findDimensionName(dimension);
  if (name !== undefined) return said(WORDS[name][0]);
  return say`a quantity in ${siSymbol(dimension as Dimension)}`;
}

/** The symbol of the coherent SI unit of a dimension, such as `N.m`; empty for a plain number. */
export function siSymbol(dimension: Dimension): string {
  const name = findDimensionName(dimension);
  if (name !== undefined) return WORDS[name][1];
  const power = (sign: number) =>
    dimension
      .flatMap((exponent, index) => {
        const size = exponent * sign;
        return size > 0 ? [`${BASE_SYMBOLS[index]}${size === 1 ? '' : size}`] : [];
      })
      .join('.');
  const under = power(-1);
  return under === '' ? power(1) : `${power(1)}/${under}`;
}
