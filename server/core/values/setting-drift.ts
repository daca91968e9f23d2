import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { roundingDrift, roundingError } from '../motion/rounding.ts';
import { type Collector, figureInput } from './collect.ts';
import type { Derived } from './derived.ts';
import { inputFrom, rename } from './input.ts';
import type { Wanted } from './wanted.ts';

/** What it costs that the part keeps only so many decimals of the pulses per length. */
export function deriveDrift(
  machine: Machine,
  axis: string,
  now: Derived,
  wanted: Wanted,
  out: Collector,
): void {
  const [from] = wanted.inputs;
  if (!from) return;
  const keyed = inputFrom(now, later`keyed in`);
  const exact = rename(from, later`exact`);
  const base = `axes.${axis}`;
  const error = out.add({
    address: `${base}.rounding-error`,
    unit: 'ppm',
    formula: '({keyed in} − {exact}) / {exact}',
    inputs: [keyed, exact],
    si: roundingError(keyed.value, exact.value),
    source: say`definition of the relative error`,
  });
  const fields = machine.axes.get(axis)?.fields;
  const length = fields && figureInput(later`travel`, fields, 'travel', machine.file);
  if (!error || !length) {
    out.lack(`${base}.rounding-drift`, say`the travel of the axis`);
    return;
  }
  const drift = roundingDrift(keyed.value, exact.value, length.value);
  out.add({
    address: `${base}.rounding-drift`,
    // A last decimal costs micrometres; a setting that is wrong altogether, millimetres.
    unit: /deg|rad/.test(now.unit) ? 'deg' : Math.abs(drift) < 1e-3 ? 'um' : 'mm',
    formula: '{travel} × {rounding error}',
    inputs: [length, inputFrom(error, later`rounding error`)],
    si: drift,
    source: say`the relative error over the full travel`,
  });
}
