import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { restsOnFault } from '../findings/common/held-back.ts';
import { joinWords } from '../findings/common/words.ts';
import { said, say } from '../language/say.ts';
import { nearestName } from '../nearest.ts';
import { answer, splitAsked } from '../values/asked/asked.ts';
import type { Derived, Missing } from '../values/derived.ts';
import { usersOf } from '../values/uses.ts';
import { addressesAbout } from './addresses-about.ts';
import { DOUBTFUL, nameLimit, titleOf } from './markdown.ts';

/** A value explained, or why it cannot be. */
export type Explanation =
  | { readonly kind: 'value'; readonly value: Derived; readonly lines: readonly string[] }
  | { readonly kind: 'missing'; readonly lines: readonly string[] }
  | { readonly kind: 'unknown'; readonly lines: readonly string[] };

/** Explains the value at an address in plain lines: the working down to what was written, the source, the dependants. */
export function explain(analysis: Analysis, address: string): Explanation {
  const { values } = analysis;
  const asked = splitAsked(address);
  if (asked && analysis.kind === 'machine') return explainAsked(analysis, address, asked);
  const value = values.byAddress.get(address);
  if (value) return explainValue(analysis, value, values.byAddress);
  const missing = values.missing.get(address);
  if (missing) return explainMissing(missing);
  return unknown(analysis, address);
}

/** What follows from a figure that only this question has: a spindle at some speed, an axis over some move. */
function explainAsked(
  analysis: MachineAnalysis,
  address: string,
  { owner, figure }: { readonly owner: string; readonly figure: string },
): Explanation {
  const answered = answer(analysis.machine, analysis.values, owner, figure);
  if (answered.kind === 'refused') return { kind: 'unknown', lines: [answered.why] };
  const { derived, missing } = answered.asked;
  const value = derived.find((each) => each.address === address);
  if (value)
    return explainValue(
      analysis,
      value,
      new Map([...analysis.values.byAddress, ...derived.map((each) => [each.address, each] as const)]),
    );
  const lacking = missing.find((each) => each.address === address);
  if (lacking) return explainMissing(lacking);
  const known = [...derived, ...missing].map((each) => each.address);
  return {
    kind: 'unknown',
    lines: [
      say`There is no value at ${address}. ${known.length > 0 ? say`There are ${known.join(', ')}.` : 'Only a spindle and axes can be asked like this.'}`,
    ],
  };
}

function explainValue(analysis: Analysis, value: Derived, all: ReadonlyMap<string, Derived>): Explanation {
  const { address } = value;
  const { values } = analysis;
  const limit = value.limit === undefined ? '' : say`, limited by ${nameLimit(value.limit)}`;
  const users = usersOf(values, [address]).get(address) ?? [];
  const lines = [
    `${titleOf(address)}: ${value.shown}${limit}`,
    ...(restsOnFault(analysis, value) ? [`  ${said(DOUBTFUL)}`] : []),
    `  ${value.formula}`,
    `  ${value.working}`,
    ...explainInputs(value, all, '  ', new Set([address])),
    say`  source: ${value.source}`,
    ...(users.length > 0 ? [say`  used for: ${users.map((user) => user.address).join(', ')}`] : []),
  ];
  return { kind: 'value', value, lines };
}

function explainMissing({ address, needs }: Missing): Explanation {
  return { kind: 'missing', lines: [say`${titleOf(address)} is not computed: it needs ${needs}.`] };
}

function unknown(analysis: Analysis, address: string): Explanation {
  const { values } = analysis;
  const about = addressesAbout(analysis, address);
  const near = nearestName(address, [...values.byAddress.keys(), ...values.missing.keys()]);
  const known = [...values.byAddress.keys()].slice(0, 3);
  const help =
    about.length > 0
      ? say`Of ${address} there are ${joinWords(about, 'and')}.`
      : near
        ? say`Did you mean ${near}?`
        : say`Addresses look like ${known.join(', ')}.`;
  return { kind: 'unknown', lines: [say`There is no value at ${address}. ${help}`] };
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
      say`${indent}where ${titleOf(inner.address)} = ${inner.working}`,
      ...explainInputs(inner, all, `${indent}  `, seen),
    ];
  });
}
