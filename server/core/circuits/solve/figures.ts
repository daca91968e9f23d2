import type { Part } from '../../model/machine.ts';
import { keyedInMeaning, numberKeyed } from '../../model/settings.ts';
import type { Circuit } from '../../model/sheet.ts';
import { readSpan } from '../../units/index.ts';
import type { Wired } from './wired.ts';

/** A figure of a circuit in SI units, where the sheet states it and it is not below zero. */
export function figure(circuit: Circuit, key: string): number | undefined {
  const value = circuit.figures.quantity(key)?.value.value;
  return value !== undefined && Number.isFinite(value) && value >= 0 ? value : undefined;
}

/** The ends of a span of a circuit, in SI units. */
export function spanOf(circuit: Circuit, key: string): readonly [least: number, most: number] | undefined {
  const span = circuit.figures.span(key)?.value;
  if (!span) return undefined;
  const least = span.least.value;
  const most = span.most.value;
  return Number.isFinite(least) && Number.isFinite(most) && least <= most ? [least, most] : undefined;
}

/** What a supply gives: as its `output-voltage` is set, or by its datasheet. */
export function suppliedVolts(machine: Wired, part: Part, circuit: Circuit): number | undefined {
  const keyed =
    keyedInMeaning(machine.file, part, 'output-voltage', { circuit: circuit.name }) ??
    (countSupplies(part) === 1 ? keyedInMeaning(machine.file, part, 'output-voltage') : undefined);
  const set = keyed && numberKeyed(keyed);
  return set !== undefined && set > 0 ? set : figure(circuit, 'voltage');
}

function countSupplies(part: Part): number {
  return [...(part.sheet?.circuits.values() ?? [])].filter(({ kind }) => kind === 'power-out').length;
}

/** The span of an analog input: as its `speed-reference` is set, or by its datasheet. */
export function inputSpan(
  machine: Wired,
  part: Part,
  circuit: Circuit,
): readonly [least: number, most: number] | undefined {
  const keyed = keyedInMeaning(machine.file, part, 'speed-reference', { circuit: circuit.name });
  const set = keyed && readSpan(keyed.scalar.text, { dimension: 'voltage', units: ['V'] }).value;
  return set ? [set.least.value, set.most.value] : spanOf(circuit, 'span');
}

/** Whether a contact is closed while nothing operates it: by its `contact` setting, or by its sheet. */
export function closedAtRest(machine: Wired, part: Part, circuit: Circuit): boolean {
  const keyed = keyedInMeaning(machine.file, part, 'contact', { circuit: circuit.name })?.scalar.text;
  if (keyed === 'normally-closed' || keyed === 'closed') return true;
  if (keyed === 'normally-open' || keyed === 'open') return false;
  return circuit.figures.text('rest')?.value === 'closed';
}

/** Whether a sheet says `yes`. */
export function says(circuit: Circuit, key: string): boolean {
  return circuit.figures.flag(key)?.value === true;
}
