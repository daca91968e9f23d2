import type { Dirent } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';

/** True for text that means several files. */
export function isPattern(text: string): boolean {
  return /[*?]|\{[^{}]*,[^{}]*\}/.test(text);
}

/**
 * The files that a pattern means, sorted: `*` any letters of a name, `?` one letter, `{a,b}` one of some, `**` any
 * folders. For shells that leave patterns alone. Folders of other people's packages and hidden ones are passed over
 * by patterns, as are folders that cannot be read; symbolic links are not followed by `**`.
 */
export async function expandPattern(pattern: string): Promise<string[]> {
  const steps = pattern.replaceAll('\\', '/').split('/');
  const root = steps[0] === '' ? '/' : '';
  const found = new Set<string>();
  await walk(root, steps[0] === '' ? steps.slice(1) : steps, found);
  return [...found].sort();
}

async function walk(folder: string, [step, ...rest]: readonly string[], found: Set<string>): Promise<void> {
  if (step === undefined) return;
  if (step === '**') {
    await walk(folder, rest, found);
    for (const entry of await list(folder))
      if (entry.isDirectory() && isOurs(entry.name))
        await walk(join(folder, entry.name), ['**', ...rest], found);
    return;
  }
  if (!isPattern(step) && rest.length > 0) return walk(join(folder, step), rest, found);
  const fits = toExpression(step);
  for (const entry of await list(folder)) {
    if (!fits.test(entry.name) || (entry.name.startsWith('.') && !step.startsWith('.'))) continue;
    const path = join(folder, entry.name);
    if (rest.length > 0) await walk(path, rest, found);
    else if (!entry.isDirectory()) found.add(path);
  }
}

function isOurs(name: string): boolean {
  return !name.startsWith('.') && name !== 'node_modules';
}

async function list(folder: string): Promise<Dirent[]> {
  try {
    return await readdir(folder === '' ? '.' : folder, { withFileTypes: true });
  } catch {
    return [];
  }
}

function toExpression(step: string): RegExp {
  const body = step.replace(/\{([^{}]*,[^{}]*)\}|[*?]|[.+^$()[\]{}|\\]/g, (sign, words?: string) => {
    if (words !== undefined) return `(?:${words.split(',').map(plain).join('|')})`;
    return sign === '*' ? '.*' : sign === '?' ? '.' : `\\${sign}`;
  });
  return new RegExp(`^${body}$`, 'u');
}

function plain(text: string): string {
  return text.replace(/[.*+?^$()[\]{}|\\]/g, (sign) =>
    sign === '*' ? '.*' : sign === '?' ? '.' : `\\${sign}`,
  );
}
