/**
 * A short name for a text, for telling whether two are equal: two 32-bit FNV-1a sums with different starts (the
 * algorithm of Fowler, Noll and Vo, public domain). Not for secrets.
 */
export function hashText(text: string): string {
  return sum(text, 0x811c9dc5).toString(36) + sum(text, 0x01000193).toString(36);
}

function sum(text: string, start: number): number {
  let hash = start;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}
