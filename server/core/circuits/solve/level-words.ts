import { later, said } from '../../language/say.ts';
import type { Level } from './reading.ts';

const WORDS: Readonly<Record<Level, string>> = {
  on: later`on`,
  off: later`off`,
  uncertain: later`uncertain`,
  unknown: later`unknown`,
};

/** What an input reads, in a word. */
export function sayLevel(level: Level): string {
  return said(WORDS[level]);
}
