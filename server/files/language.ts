import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Words } from '../core/language/say.ts';

/**
 * The words of the language of a locale, `de`, `de-AT` or `de_AT.UTF-8`; undefined where there are none, as for
 * English, which needs none. They stand in a folder beside the programs.
 */
export function readWords(locale: string | undefined): Words | undefined {
  const language = /^[a-z]{2,3}(?=$|[-_.@])/i.exec(locale ?? '')?.[0].toLowerCase();
  if (language === undefined) return undefined;
  const places = [join(__dirname, '..', 'l10n'), join(__dirname, '..', '..', 'l10n')];
  const file = places.map((folder) => join(folder, `bundle.l10n.${language}.json`)).find(existsSync);
  return file === undefined ? undefined : (JSON.parse(readFileSync(file, 'utf8')) as Words);
}
