import fs from 'node:fs';
import path from 'node:path';
import type { Words } from '../../server/core/language/say.ts';
import { ROOT } from './lsp-client.ts';

/** The German words that ship. */
export function germanWords(): Words {
  return JSON.parse(fs.readFileSync(path.join(ROOT, 'l10n/bundle.l10n.de.json'), 'utf8')) as Words;
}
