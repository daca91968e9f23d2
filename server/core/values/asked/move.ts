import { later, said, say } from '../../language/say.ts';
import type { AxisEntry } from '../../model/machine.ts';
import type { Machine } from '../../model/resolve.ts';
import { move } from '../../motion/profile.ts';
import { isRotary } from '../axis-parts.ts';
import { type Collector, figureInput, listNeeds } from '../collect.ts';
import type { Input } from '../derived.ts';

const SOURCE = later`textbook, constant acceleration`;

/** How long a move of any length takes, and how fast it gets: a trapezoid where both ramps fit, else a triangle. */
export function deriveMoveOf(
  machine: Machine,
  axis: AxisEntry,
  { suffix, figure: length }: { readonly suffix: string; readonly figure: Input },
  out: Collector,
): void {
  const feed = figureInput(later`wanted feed`, axis.fields, 'feed', machine.file);
  const acceleration = figureInput(later`acceleration`, axis.fields, 'acceleration', machine.file);
  const address = (name: string) => `axes.${axis.name}.${name}${suffix}`;
  if (!feed || !acceleration) {
    const needs = listNeeds([
      [feed, say`the feed that you want`],
      [acceleration, say`the acceleration`],
    ]);
    for (const name of ['move-time', 'move-peak']) out.lack(address(name), needs);
    return;
  }
  const { triangular, peak, time } = move(length.value, feed.value, acceleration.value);
  out.add({
    address: address('move-time'),
    unit: 's',
    formula: triangular
      ? `2 × √({${length.name}} / {acceleration})`
      : `{wanted feed} / {acceleration} + {${length.name}} / {wanted feed}`,
    inputs: triangular ? [length, acceleration] : [feed, acceleration, length],
    si: time,
    source: `${said(SOURCE)}; ${triangular ? say`a triangle: the feed is not reached` : say`a trapezoid: the feed is reached`}`,
  });
  out.add({
    address: address('move-peak'),
    unit: isRotary(axis.name) ? 'rpm' : 'mm/min',
    formula: triangular ? `√({${length.name}} × {acceleration})` : '{wanted feed}',
    inputs: triangular ? [length, acceleration] : [feed],
    si: peak,
    source: SOURCE,
  });
}
