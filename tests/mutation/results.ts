import fs from 'node:fs';
import path from 'node:path';
import type { Mutant } from './mutants.ts';

/** What became of a mutant: a test noticed it, none did, it ran for ever (which is noticed), or no test comes by it. */
export type Fate = 'killed' | 'survived' | 'endless' | 'unreached';

export interface Result extends Omit<Mutant, 'id' | 'place'> {
  readonly fate: Fate;
}

/** What is known of a folder's sample. */
export interface FolderResults {
  readonly day: string;
  readonly machine: string;
  readonly seed: number;
  /** All mutants that the folder has. */
  readonly mutants: number;
  readonly tried: number;
  readonly killed: number;
  /** Those that no test noticed. */
  readonly left: readonly Result[];
}

export type Results = Readonly<Record<string, FolderResults>>;

export const RESULTS = path.join(import.meta.dirname, 'results.json');

/** The results that were made last, by folder. */
export const readResults = (): Results =>
  fs.existsSync(RESULTS) ? (JSON.parse(fs.readFileSync(RESULTS, 'utf8')) as Results) : {};
