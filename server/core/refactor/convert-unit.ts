import { shapeOf } from '../analysis.ts';
import { say } from '../language/say.ts';
import { shapeAlong } from '../shape/at.ts';
import { locate, pathOf } from '../syntax/locate.ts';
import { spanWithin } from '../syntax/node.ts';
import { findUnit, fromSi, readQuantity } from '../units/index.ts';
import type { Place, Refactoring } from './refactoring.ts';

/** A quantity in another unit that fits its key, to nine digits, which is finer than anything on a machine. */
export function* convertUnits({ analysis, from }: Place): Generator<Refactoring> {
  const { steps, scalar, onKey } = locate(analysis.tree, from);
  if (!scalar || onKey || scalar.textFrom === undefined) return;
  const shape = shapeAlong(shapeOf(analysis), pathOf(steps), analysis.tree.root)?.shape;
  if (shape?.kind !== 'leaf' || shape.leaf.kind !== 'quantity') return;
  const quantity = readQuantity(scalar.text, shape.leaf).value;
  if (!quantity) return;
  for (const symbol of shape.leaf.units) {
    const unit = findUnit(symbol);
    if (
      !unit ||
      unit.symbol === quantity.unit.symbol ||
      unit.dimension.some((power, at) => power !== quantity.unit.dimension[at])
    )
      continue;
    const text = `${writeNumber(fromSi(quantity.value, unit))} ${unit.symbol}`;
    const { value, problems } = readQuantity(text, shape.leaf);
    const again = value?.value;
    if (
      again === undefined ||
      problems.length > 0 ||
      Math.abs(again - quantity.value) > 1e-8 * Math.abs(quantity.value)
    )
      continue;
    const [start, end] = [quantity.numberAt[0], quantity.unitAt[1]];
    yield {
      title: say`Convert to ${text}`,
      kind: 'refactor.rewrite',
      edits: [{ at: spanWithin(scalar, start, end), text }],
    };
  }
}

/** Nine significant digits without an exponent, which the format does not need; what is out of reach is not written. */
function writeNumber(number: number): string {
  const rounded = Number(number.toPrecision(9));
  const plain = String(rounded);
  return plain.includes('e') ? rounded.toFixed(20).replace(/0+$/, '') : plain;
}
