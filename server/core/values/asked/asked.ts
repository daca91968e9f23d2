import { later, say } from '../../language/say.ts';
import type { Machine } from '../../model/resolve.ts';
import { readQuantity } from '../../units/index.ts';
import { isRotary } from '../axis-parts.ts';
import { createCollector } from '../collect.ts';
import type { Derived, Input, Missing, Values } from '../derived.ts';
import { shownUnits } from '../shown-in.ts';
import { readSpindle } from '../spindle-parts.ts';
import { deriveMoveOf } from './move.ts';
import { deriveSpeedOf } from './speed.ts';

/** What follows from one figure that somebody asks about: the values, and what is missing for the others. */
export interface Asked {
  readonly derived: readonly Derived[];
  readonly missing: readonly Missing[];
}

/** Either the values, or why the figure cannot be asked about. */
export type Answer =
  | { readonly kind: 'asked'; readonly asked: Asked }
  | { readonly kind: 'refused'; readonly why: string };

/** `spindle` at any speed, `axes.X` over any move, as `spindle.wait-margin at 9000 rpm`. */
export function splitAsked(address: string): { readonly owner: string; readonly figure: string } | undefined {
  const found = /^(spindle|axes\.([^.\s]+))\.[a-z-]+ at (\S.*)$/.exec(address);
  const [, owner, , figure] = found ?? [];
  return owner === undefined || figure === undefined ? undefined : { owner, figure };
}

/** The values of a spindle at a speed, or of an axis over a move, with the figure as somebody typed it. */
export function answer(machine: Machine, values: Values, owner: string, figure: string): Answer {
  const axis = owner.replace(/^axes\./, '');
  const expected =
    owner === 'spindle'
      ? { dimension: 'angular-speed' as const, units: ['rpm'] }
      : isRotary(axis)
        ? { dimension: 'angle' as const, units: ['deg'] }
        : { dimension: 'length' as const, units: ['mm'] };
  const read = readQuantity(figure, expected).value;
  if (!read || !(read.value >= 0))
    return {
      kind: 'refused',
      why: say`${figure} cannot be asked about; write it as in 90 ${expected.units[0]}.`,
    };
  const input = {
    name: owner === 'spindle' ? later`speed asked` : later`length of the move`,
    value: read.value,
    shown: figure,
  };
  return { kind: 'asked', asked: ask(machine, values, owner, input) };
}

/** The values of a spindle at a speed, or of an axis over a move; nothing for what is not there. */
export function ask(machine: Machine, values: Values, owner: string, figure: Input): Asked {
  const out = createCollector(shownUnits(machine));
  const known = { get: (address: string) => values.byAddress.get(address) };
  const at = { suffix: ` at ${figure.shown}`, figure };
  const spindle = owner === 'spindle' ? readSpindle(machine) : undefined;
  const axis = machine.axes.get(owner.replace(/^axes\./, ''));
  if (spindle) deriveSpeedOf(machine, spindle, known, at, out);
  else if (owner !== 'spindle' && axis) deriveMoveOf(machine, axis, at, out);
  return { derived: out.derived, missing: out.missing };
}
