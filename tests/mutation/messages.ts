/** What the process that runs tests is asked, and what it answers. */
export type Order =
  | { readonly kind: 'watch'; readonly sample: readonly string[] }
  | {
      readonly kind: 'try';
      readonly mutant: string;
      readonly mostHits: number;
      readonly tests: readonly TestPlace[];
    };

export type Answer =
  | { readonly kind: 'ready' }
  | { readonly kind: 'watched'; readonly tests: readonly Watched[]; readonly failed: readonly string[] }
  | { readonly kind: 'tried'; readonly failed: readonly string[] };

/** Where a test is, for vitest. */
export interface TestPlace {
  readonly id: string;
  readonly file: string;
}

/** What a test reaches of the mutated folder. */
export interface Watched extends TestPlace {
  readonly name: string;
  /** In ms. */
  readonly duration: number;
  /** How often it comes by each mutant of the sample. */
  readonly hits: Readonly<Record<string, number>>;
  /** How often its file comes by mutants of the sample while it is loaded, before any test runs. */
  readonly loaded: Readonly<Record<string, number>>;
  /** How long its file takes to load, in ms. */
  readonly loading: number;
  /** The files of the folder that it runs through. */
  readonly files: readonly string[];
}

declare module 'vitest' {
  interface ProvidedContext {
    mutation: {
      /** The mutant that is switched on; absent while the tests are watched. */
      readonly active?: string;
      /** A mutant that is passed more often than this runs for ever. */
      readonly mostHits?: number;
      readonly sample: readonly string[];
      /** The file of each mutant, by its number. */
      readonly fileOf: readonly string[];
    };
  }
  interface TaskMeta {
    hits?: Record<string, number>;
    loaded?: Record<string, number>;
    files?: string[];
  }
}
