export { COLOUR_CODES, codesForColour, readColour } from './colours.ts';
export {
  DIMENSIONS,
  type DimensionName,
  multiplyDimensions,
  nameDimension,
  sameDimension,
} from './dimension.ts';
export { formatBest, formatNumber, formatQuantity } from './format.ts';
export { awgArea, awgDiameter } from './gauge.ts';
export { listUnits, nearestUnits } from './guess.ts';
export { readQuantity } from './quantity.ts';
export { type Ratio, readRatio } from './ratio.ts';
export type {
  Expectation,
  Quantity,
  Reading,
  ValueProblem,
} from './reading.ts';
export { describeExpectation, shiftProblem } from './reading.ts';
export { readSpan, readSpanOrQuantity, type Span } from './span.ts';
export { findUnit, fromSi, ONE, toSi, toUnit, type Unit } from './unit.ts';
export { readWire, type Wire } from './wire.ts';
