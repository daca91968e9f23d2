import type { Analysis } from '../analysis.ts';
import { restsOnFault } from '../findings/common/held-back.ts';
import { nearestName } from '../nearest.ts';
import type { Derived } from '../values/derived.ts';
import { DOUBTFUL, titleOf } from './markdown.ts';

/** A value explained, or why it cannot be. */
export type Explanation =
  | { readonly kind: 'value'; readonly value: Derived; readonly lines: readonly string[] }
  | { readonly kind: 'missing'; readonly lines: readonly string[] }
  | { readonly kind: 'unknown'; readonly lines: readonly string[] };

/** Explains the value at an address in plain lines: the working down to what was written, the source, the dependants. */
export function explain(analysis: Analysis, address: string): Explanation {
  const { values } = analysis;
  const value = values.byAddress.get(address);
  if (value) {
    const limit = value.limit === undefined ? '' : `, limited by the ${value.limit}`;
    const users = values.usedBy.get(address) ?? [];
    const lines = [
      `${titleOf(address)}: ${value.shown}${limit}`,
      ...(restsOnFault(analysis, value) ? [`  ${DOUBTFUL}`] : []),
      `  ${value.formula}`,
      `  ${value.working}`,
      ...explainInputs(value, values.byAddress, '  ', new Set([address])),
      `  source: ${value.source}`,
      ...(users.length > 0 ? [`  used for: ${users.join(', ')}`] : []),
    ];
    return { kind: 'value', value, lines };
  }
  const missing = values.missing.get(address);
  if (missing)
    return { kind: 'missing', lines: [`${titleOf(address)} is not computed: it needs ${missing.needs}.`] };
  const near = nearestName(address, [...values.byAddress.keys(), ...values.missing.keys()]);
  const known = [...values.byAddress.keys()].slice(0, 8);
  const help = near ? `Did you mean ${near}?` : `Addresses look like ${known.slice(0, 3).join(', ')}.`;
  return { kind: 'unknown', lines: [`There is no value at ${address}. ${help}`] };
}

/** The values that a value rests on, one level of indentation each; a value that was explained above is not repeated. */
function explainInputs(
  value: Derived,
  all: ReadonlyMap<string, Derived>,
  indent: string,
  seen: Set<string>,
): string[] {
  return value.inputs.flatMap((input) => {
    const inner = input.address === undefined ? undefined : all.get(input.address);
    if (!inner || seen.has(inner.address)) return [];
    seen.add(inner.address);
    return [
      `${indent}where ${titleOf(inner.address)} = ${inner.working}`,
      ...explainInputs(inner, all, `${indent}  `, seen),
    ];
  });
}
