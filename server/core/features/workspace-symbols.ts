import type { Source } from '../names/mention.ts';
import { mentionsIn } from '../names/mentions.ts';
import type { Found } from '../names/name.ts';
import { shippedFiles } from '../names/workspace.ts';

/** A definition anywhere in the workspace whose name fits what somebody types. */
export interface WorkspaceSymbol extends Found {
  /** Larger fits better. */
  readonly score: number;
}

/** More than anybody reads; a further letter narrows it down. */
const MOST_SYMBOLS = 256;

/** Definitions of the user's own parts, axes, cables, circuits, terminals and settings, and titles, by some of their letters in order. */
export function findWorkspaceSymbols(query: string, sources: readonly Source[]): WorkspaceSymbol[] {
  const shipped = sources[0] ? shippedFiles(sources[0].world) : new Set<string>();
  const own = sources.filter(({ file }) => !shipped.has(file));
  const found = own.flatMap((source) =>
    mentionsIn(source).flatMap((mention): WorkspaceSymbol[] => {
      if (mention.access !== 'definition' || mention.text === '') return [];
      const score = scoreMatch(query, mention.text);
      return score === undefined ? [] : [{ source, mention, score }];
    }),
  );
  return found.sort((a, b) => b.score - a.score).slice(0, MOST_SYMBOLS);
}

/**
 * How well a name fits some letters: they stand in it in their order, whatever is between them. Letters that begin the
 * name or a word of it, or follow one another, count more; a long rest counts less. Undefined where they do not fit.
 */
export function scoreMatch(query: string, name: string): number | undefined {
  const [wanted, text] = [query.toLowerCase(), name.toLowerCase()];
  let [at, score] = [0, 0];
  for (const letter of wanted) {
    if (letter.trim() === '') continue;
    const next = text.indexOf(letter, at);
    if (next < 0) return undefined;
    if (next === 0) score += 8;
    else if (next === at) score += 6;
    else if (!/[\p{L}\p{N}]/u.test(text[next - 1] ?? '')) score += 5;
    else score += 1;
    at = next + letter.length;
  }
  return score - (text.length - at) / 100;
}
