import { vi } from 'vitest';
import type { Words } from '../../../server/core/language/say.ts';
import { pseudoWords } from '../../support/pseudo.ts';

/** What a program of its own found in one language: facts, which no language changes, and what was said. */
export interface Looked {
  readonly facts: unknown;
  readonly said: readonly string[];
}

/**
 * Looks in one language. Each time it is a program of its own, since a process has one language.
 * @param look imports what it looks at after it was called
 */
export async function lookIn<T>(words: Words | undefined, look: () => Promise<T>): Promise<T> {
  vi.resetModules();
  const { speak } = await import('../../../server/core/language/say.ts');
  speak(words);
  return look();
}

/** Looks twice, in English and in a language that nobody speaks. */
export async function inBoth<T>(
  look: () => Promise<T>,
): Promise<{ readonly english: T; readonly pseudo: T }> {
  return { english: await lookIn(undefined, look), pseudo: await lookIn(pseudoWords(), look) };
}
