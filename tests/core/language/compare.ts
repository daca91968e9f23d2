import { vi } from 'vitest';
import { pseudoWords } from '../../support/pseudo.ts';

/** What a program of its own found in one language: facts, which no language changes, and what was said. */
export interface Looked {
  readonly facts: unknown;
  readonly said: readonly string[];
}

/**
 * Looks twice, in English and in a language that nobody speaks. Each time it is a program of its own, since a process
 * has one language.
 * @param look imports what it looks at after it was called
 */
export async function inBoth<T>(
  look: () => Promise<T>,
): Promise<{ readonly english: T; readonly pseudo: T }> {
  const lookIn = async (words: Readonly<Record<string, string>> | undefined) => {
    vi.resetModules();
    const { speak } = await import('../../../server/core/language/say.ts');
    speak(words);
    return look();
  };
  return { english: await lookIn(undefined), pseudo: await lookIn(pseudoWords()) };
}
