import type { Analysis } from '../analysis.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';

/**
 * The addresses of the values that tell of a part or of one of its terminals, as people name them: `home-x`,
 * `panel.I3`. Of a switch or a sensor these are what the inputs see that it acts on. Empty for what is neither.
 */
export function addressesAbout(analysis: Analysis, name: string): string[] {
  if (analysis.kind !== 'machine') return [];
  const { machine, values } = analysis;
  const [partName = '', ...rest] = name.split('.');
  const part = machine.parts.get(partName);
  if (!part) return [];
  const terminal = rest.join('.');
  const { inputs } = circuitsOf(machine).solved;
  const circuits = inputs.filter(({ at, operations }) =>
    at.part === part
      ? terminal === '' || at.circuit.ends.some(({ text }) => text === terminal)
      : terminal === '' && operations.some(({ actor }) => actor.part === partName),
  );
  const starts = circuits.map(({ at }) => `circuits.${at.part.name}.${at.circuit.name}.`);
  if (terminal === '') starts.push(`parts.${partName}.`);
  return [...values.byAddress.keys()].filter((address) => starts.some((start) => address.startsWith(start)));
}
