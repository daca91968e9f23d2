import { say } from '../../language/say.ts';
import type { Machine } from '../../model/resolve.ts';
import { rescale } from '../../motion/analog.ts';
import { type Collector, listNeeds } from '../collect.ts';
import type { Input } from '../derived.ts';
import { coarserBits, topSpeedKeyedIn } from '../spindle.ts';
import { outputSpan, type SpindleParts } from '../spindle-parts.ts';
import { deriveWaitFor } from '../spindle-wait.ts';

/** What happens when a program asks for any speed: the signal, the ramp, and what is left of the wait. */
export function deriveSpeedOf(
  machine: Machine,
  spindle: SpindleParts,
  known: Pick<Collector, 'get'>,
  { suffix, figure: speed }: { readonly suffix: string; readonly figure: Input },
  out: Collector,
): void {
  deriveSignal(machine, spindle, { suffix, speed }, out);
  deriveWaitFor(machine, spindle, known, { suffix, speed }, out);
}

function deriveSignal(
  machine: Machine,
  spindle: SpindleParts,
  { suffix, speed }: { readonly suffix: string; readonly speed: Input },
  out: Collector,
): void {
  const [keyed, span, bits] = [topSpeedKeyedIn(machine, spindle), outputSpan(spindle), coarserBits(spindle)];
  if (!keyed || !span) {
    out.lack(
      `spindle.signal${suffix}`,
      listNeeds([
        [keyed, say`the top speed keyed into the controller`],
        [span, say`the span of the controller's speed output`],
      ]),
    );
    return;
  }
  const { bottom, top } = span;
  const isFull = speed.value >= keyed.value;
  const volts = rescale(speed.value, { from: 0, to: keyed.value }, { from: bottom.value, to: top.value });
  const length = bottom.value === 0 ? `{${top.name}}` : `({${top.name}} − {${bottom.name}})`;
  const start = bottom.value === 0 ? '' : `{${bottom.name}} + `;
  out.add({
    address: `spindle.signal${suffix}`,
    unit: 'V',
    formula: isFull ? `{${top.name}}` : `${start}${length} × {${speed.name}} / {${keyed.name}}`,
    inputs: isFull ? [top, speed, keyed] : [bottom, top, speed, keyed],
    si: isFull ? top.value : volts,
    source: say`straight scale of the speed output, which ends at its top`,
  });
  if (!bits) return;
  out.add({
    address: `spindle.signal-count${suffix}`,
    unit: '1',
    formula: say`{${speed.name}} / {${keyed.name}} × 2^{${bits.name}}, rounded to a whole number`,
    inputs: [speed, keyed, bits],
    si: Math.min(2 ** bits.value - 1, Math.round((speed.value / keyed.value) * 2 ** bits.value)),
    source: say`data sheets of converters from digital to analog; the top code is one less`,
  });
}
