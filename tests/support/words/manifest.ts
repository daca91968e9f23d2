import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Dictionary } from './compare.ts';

/** What stands for a text in the manifest: `%command.newMachine%`. */
const PLACE = /^%([\w.-]+)%$/;

/** The texts of the manifest in English, or in another language. */
export function readManifestTexts(root: string, language?: string): Dictionary {
  const file = language === undefined ? 'package.nls.json' : `package.nls.${language}.json`;
  return JSON.parse(readFileSync(join(root, file), 'utf8')) as Dictionary;
}

/** The manifest as the editor shows it in English, or in another language; as JSON it has any type. */
export function readManifest(root: string, language?: string) {
  const texts = readManifestTexts(root, language);
  const text = readFileSync(join(root, 'package.json'), 'utf8');
  return JSON.parse(text, (_, value: unknown) => {
    const key = typeof value === 'string' ? PLACE.exec(value)?.[1] : undefined;
    return key === undefined ? value : texts[key];
  });
}

/** Keys whose value a person reads. */
const READ: ReadonlySet<string> = new Set([
  'title',
  'shortTitle',
  'category',
  'description',
  'markdownDescription',
  'enumDescriptions',
  'markdownEnumDescriptions',
  'deprecationMessage',
  'errorMessage',
  'label',
  'name',
  'contents',
  'aliases',
]);
/** The product has one name in every language. */
const NAME = /^Fettle$/;

/** A string of the manifest that a person reads: as it stands, and the key of its text where it stands for one. */
export interface ReadString {
  readonly value: string;
  readonly key: string | undefined;
}

/** Every string of a part of the manifest that a person reads, as their keys or their own spaces tell. */
export function readStrings(part: unknown, under = ''): ReadString[] {
  if (typeof part === 'string') {
    const isRead = READ.has(under) || (under !== 'when' && /[a-z]{2} [a-z]{2}/i.test(part));
    return isRead && !NAME.test(part) ? [{ value: part, key: PLACE.exec(part)?.[1] }] : [];
  }
  if (typeof part !== 'object' || part === null) return [];
  return Object.entries(part).flatMap(([key, inner]) =>
    readStrings(inner, Array.isArray(part) ? under : key),
  );
}

/** What the texts of the manifest in a language lack, or have too much of, against the manifest and the English ones. */
export function compareManifest(
  strings: readonly ReadString[],
  english: Dictionary,
  other: Dictionary,
): string[] {
  const keys = new Set(strings.flatMap(({ key }) => key ?? []));
  return [
    ...strings.filter(({ key }) => key === undefined).map(({ value }) => `says "${value}" itself`),
    ...[...keys].filter((key) => !english[key]?.trim() || !other[key]?.trim()).map((key) => `lacks ${key}`),
    ...[...new Set([...Object.keys(english), ...Object.keys(other)])]
      .filter((key) => !keys.has(key))
      .map((key) => `has ${key}, which nothing shows`),
    ...[...keys]
      .filter((key) => signsOf(english[key]).join() !== signsOf(other[key]).join())
      .map((key) => `has other links, code or figures in ${key}`),
  ];
}

/** What no language changes, in its order by name: commands and addresses of links, code, figures, lines. */
function signsOf(text = ''): string[] {
  return [...text.matchAll(/\]\([^)]+\)|`[^`]+`|\{\d+\}|\d+|\n/g)].map(([sign]) => sign).sort();
}

/** The page of a walkthrough's step in a language, which the editor looks for beside the English one. */
export function pageIn(language: string, file: string): string {
  return file.replace(/\.md$/, `.nls.${language}.md`);
}
