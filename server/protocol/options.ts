import { HINT_KINDS, type HintKind } from '../core/features/inlay-hints.ts';
import { LENS_KINDS, type LensKind } from '../core/features/lenses.ts';
import type { Options, Session } from './session.ts';

/** All numbers are shown until somebody switches them off. */
export const INITIAL_OPTIONS: Options = { hints: new Set(HINT_KINDS), lenses: new Set(LENS_KINDS) };

/** Asks the client for the user's settings; a client that refuses or does not answer leaves them as they are. */
export async function fetchOptions(session: Session): Promise<void> {
  if (!session.client.configuration) return;
  try {
    const settings: unknown = await session.connection.workspace.getConfiguration('fettle');
    session.options = readOptions(settings);
  } catch {
    session.connection.console.info(
      'The client refused workspace/configuration; the settings stay as they are.',
    );
  }
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
