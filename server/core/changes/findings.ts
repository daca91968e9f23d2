import type { Finding } from '../findings/rule.ts';

/** Findings are the same when they say the same, wherever in the text they stand. */
export function compareFindings(
  before: readonly Finding[],
  after: readonly Finding[],
): { readonly appeared: readonly Finding[]; readonly gone: readonly Finding[] } {
  return { appeared: without(after, before), gone: without(before, after) };
}

/** Two that say the same are two: each of the others takes away one. */
function without(findings: readonly Finding[], others: readonly Finding[]): Finding[] {
  const left = new Map<string, number>();
  for (const other of others) left.set(says(other), (left.get(says(other)) ?? 0) + 1);
  return findings.filter((finding) => {
    const count = left.get(says(finding)) ?? 0;
    left.set(says(finding), count - 1);
    return count <= 0;
  });
}

function says({ code, message }: Finding): string {
  return `${code} ${message}`;
}
