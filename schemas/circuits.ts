import { z } from 'zod';
import type { Figures } from './circuit-figures.ts';
import { POWER_FIGURES } from './circuit-figures-power.ts';
import { SIGNAL_FIGURES } from './circuit-figures-signal.ts';
import { CIRCUIT_KINDS, type CircuitKind } from './circuit-kinds.ts';
import { role, terminalRef, text } from './leaf.ts';
import { kinds, named, optional } from './section.ts';

const FIGURES: Readonly<Record<string, Figures>> = { ...POWER_FIGURES, ...SIGNAL_FIGURES };

/** Where a circuit stands: one terminal, or a list with a fixed place for each. */
function placesOf(name: string, { terminals, doc }: CircuitKind): z.ZodType {
  if (name === 'joined') {
    return z.array(terminalRef('part')).min(2).describe(`${doc} List them in any order.`);
  }
  const [first, ...others] = terminals.map((place) =>
    terminalRef('part').describe(`The terminal of its ${place} end.`),
  );
  if (!first || others.length === 0) return terminalRef('part').describe(`${doc} Name the terminal.`);
  return z
    .tuple([first, ...others])
    .describe(`${doc} The terminals, in this order: ${terminals.join(', ')}.`);
}

const kindSchemas = [...CIRCUIT_KINDS].map(([name, kind]) =>
  z
    .strictObject({
      [name]: placesOf(name, kind),
      ...optional({
        does: role().describe('What the part uses it for, such as `pulse X` or `emergency-stop`.'),
        about: text().describe('What the datasheet says about it, in a line.'),
        ...FIGURES[name],
      }),
    })
    .describe(kind.doc),
);

const circuit = z.union(kindSchemas);
kinds.add(circuit, { of: 'circuit' });
circuit.register(z.globalRegistry, { id: 'circuit' });

/** What is inside the part, between its terminals. */
export const circuits = named(
  circuit.describe('One circuit of the part: what it is, between which terminals, and its figures.'),
);
