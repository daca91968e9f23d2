import type { InitializeParams } from 'vscode-languageserver';
import { speak, type Words } from '../core/language/say.ts';
import type { Host } from './follow-files.ts';

/**
 * Chooses the language of a session: the words that the client brings, as VS Code has them from its language packs, or
 * else those that ship for its locale.
 */
export function chooseLanguage({ locale, initializationOptions }: InitializeParams, host: Host): void {
  const own = initializationOptions as { words?: unknown } | null | undefined;
  speak(isWords(own?.words) ? own.words : host.readWords(locale));
}

function isWords(given: unknown): given is Words {
  return (
    typeof given === 'object' &&
    given !== null &&
    Object.values(given).every((text) => typeof text === 'string')
  );
}
