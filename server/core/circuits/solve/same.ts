import type { Part } from '../../model/machine.ts';
import type { Wired } from './wired.ts';

/** The settings that change what stands between the terminals of a part, or what is made of what it sees. */
const ELECTRICAL: ReadonlySet<string> = new Set([
  'contact',
  'output-voltage',
  'speed-reference',
  'input-sense',
  'input-use',
]);

/**
 * Whether two versions of a machine have the same circuits, at the same places of the text. Parts and links stay the
 * same objects from one version to the next while their text does.
 */
export function hasSameCircuits(a: Wired, b: Wired): boolean {
  if (a.file !== b.file || a.parts.size !== b.parts.size || a.links.length !== b.links.length) return false;
  for (let index = 0; index < a.links.length; index++) if (a.links[index] !== b.links[index]) return false;
  if (a.parts === b.parts) return true;
  const others = b.parts.values();
  for (const part of a.parts.values()) {
    const { value } = others.next();
    if (!value || (part !== value && !isSamePart(part, value))) return false;
  }
  return true;
}

function isSamePart(a: Part, b: Part): boolean {
  return a.name === b.name && a.sheet === b.sheet && electricalSettings(a) === electricalSettings(b);
}

/** What is set on a part of what changes its circuits, as one text. */
export function electricalSettings({ assigned, sheet }: Part): string {
  let text = '';
  for (const [name, { value }] of assigned) {
    if (ELECTRICAL.has(sheet?.settings.get(name)?.is ?? '')) text += `${name}\n${value?.text ?? ''}\n`;
  }
  return text;
}
