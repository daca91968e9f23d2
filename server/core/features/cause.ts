import type { Analysis } from '../analysis.ts';
import type { Span } from '../syntax/node.ts';
import type { Derived, Values } from '../values/derived.ts';
import type { FileId } from '../world.ts';

/** Something that was written down, in the text or in a sheet. */
export interface Written {
  readonly file: FileId;
  readonly at: Span;
}

/**
 * What a computed value goes back to: of a value that is the least of several, what limits it; else the first of its
 * figures that somebody wrote down. Undefined where it rests on nothing that is written.
 */
export function causeOf({ values }: Analysis, address: string): Written | undefined {
  const value = values.byAddress.get(address);
  return value && follow(value, values, new Set());
}

function follow(value: Derived, values: Values, seen: Set<string>): Written | undefined {
  if (seen.has(value.address)) return undefined;
  seen.add(value.address);
  const limiting = value.inputs.filter(({ name }) => value.limit !== undefined && name === value.limit);
  for (const { file, at, address } of [...limiting, ...value.inputs]) {
    if (file !== undefined && at) return { file, at };
    const behind = address === undefined ? undefined : values.byAddress.get(address);
    const found = behind && follow(behind, values, seen);
    if (found) return found;
  }
  return undefined;
}
