import type { Analysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { conductorCapacity } from '../../../motion/capacity.ts';
import { formatNumber } from '../../../units/index.ts';
import { showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { capital, sizeOf, type WireAt, wiresOf } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/over-capacity',
  severity: 'error',
  title: later`A wire carries more than it may`,
  find: findOverloaded,
  say: (data) => {
    const better = word(data, 'better');
    const advice = better === '' ? say`Take a thicker wire` : say`Take ${better}`;
    return say`${capital(word(data, 'wire'))} (${word(data, 'size')}) carries up to ${word(data, 'current')} and may carry ${word(data, 'capacity')}. It grows hot, and its insulation ages or burns. ${advice}, or divide the load.`;
  },
};

/** Sizes that are sold, in mm2. */
const SIZES = [0.2, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16];

/** The cores of one cable share their size, so they are one mistake: the most loaded stands for them. */
function* findOverloaded(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const overloaded = wiresOf(analysis).filter(({ isOverloaded }) => isOverloaded);
  for (const [at, wires] of groupBy(overloaded, ({ wire }) => wire.at)) {
    const worst = wires.reduce((a, b) => (excessOf(b) > excessOf(a) ? b : a));
    const [current, capacity] = [worst.values.current, worst.values.capacity];
    if (!current || !capacity) continue;
    yield {
      at,
      data: {
        wire: worst.shown,
        size: sizeOf(worst),
        current: showBriefly(current),
        capacity: showBriefly(capacity),
        better: nextSize(worst, current.si, capacity.si),
      },
      related: wires
        .map(({ link }) => ({
          at: link.at,
          note: say`what flows: ${formatNumber(current.value, 4)} A = ${current.formula}`,
        }))
        .slice(0, 1),
    };
  }
}

function excessOf(wire: WireAt): number {
  return (wire.values.current?.si ?? 0) / (wire.values.capacity?.si ?? 1);
}

/** The next size that carries the current when it is laid in the same way; empty where none does. */
function nextSize({ link, wire }: WireAt, current: number, capacity: number): string {
  const laying = link.cable === undefined ? 'B1' : 'B2';
  const factor = capacity / conductorCapacity(wire.value.area, laying);
  const size = SIZES.find(
    (each) =>
      each * 1e-6 > wire.value.area &&
      conductorCapacity(each * 1e-6, laying) * Math.min(1, factor) >= current,
  );
  return size === undefined || !Number.isFinite(factor) ? '' : `${size} mm2`;
}
