import type { Connection } from 'vscode-languageserver';
import { HINT_KINDS, type HintKind } from '../core/features/inlay-hints.ts';
import { LENS_KINDS, type LensKind } from '../core/features/lenses.ts';
import { settle } from './settle.ts';

/** What the user set for a document. */
export interface Options {
  readonly hints: ReadonlySet<HintKind>;
  readonly lenses: ReadonlySet<LensKind>;
}

/** The user's settings, which may differ from folder to folder. */
export interface OptionsByDocument {
  /** Those for a document; all numbers are shown until somebody switches them off. */
  readonly of: (uri: string) => Promise<Options>;
  /** To be called when the user changed them. */
  readonly forget: () => void;
}

const ALL: Options = { hints: new Set(HINT_KINDS), lenses: new Set(LENS_KINDS) };

/** A client that has not answered by then is not waited for. */
const LONGEST_WAIT_MS = 500;

/** Asks the client for the settings of each document once, and again when they changed. */
export function createOptions(connection: Connection, asks: boolean): OptionsByDocument {
  const answered = new Map<string, Options>();
  let generation = 0;
  const ask = async (uri: string): Promise<Options> => {
    const asked = generation;
    const options = await fetchOptions(connection, uri);
    if (asked === generation) answered.set(uri, options); // else they changed meanwhile
    return options;
  };
  return {
    of: async (uri) => {
      if (!asks) return ALL;
      return answered.get(uri) ?? Promise.race([ask(uri), waitFor(LONGEST_WAIT_MS)]);
    },
    forget: () => {
      generation += 1;
      answered.clear();
    },
  };
}

async function fetchOptions(connection: Connection, uri: string): Promise<Options> {
  try {
    return readOptions(await connection.workspace.getConfiguration({ scopeUri: uri, section: 'fettle' }));
  } catch {
    connection.console.info('The client refused workspace/configuration; all numbers are shown.');
    return ALL;
  }
}

/** All numbers, after a while. Where this process was busy meanwhile, what has arrived by then is read first. */
async function waitFor(milliseconds: number): Promise<Options> {
  await new Promise((done) => setTimeout(done, milliseconds));
  await settle(() => undefined);
  return ALL;
}

function readOptions(settings: unknown): Options {
  const given = settings as {
    inlayHints?: Partial<Record<HintKind, unknown>>;
    codeLens?: Partial<Record<LensKind, unknown>> | false;
  } | null;
  const lenses = given?.codeLens;
  return {
    hints: new Set(HINT_KINDS.filter((kind) => given?.inlayHints?.[kind] !== false)),
    lenses: new Set(LENS_KINDS.filter((kind) => lenses !== false && lenses?.[kind] !== false)),
  };
}
