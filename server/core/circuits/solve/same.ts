import type { Part } from '../../model/machine.ts';
import type { Machine } from '../../model/resolve.ts';

/** The settings that change what stands between the terminals of a part, or what is made of what it sees. */
const ELECTRICAL: ReadonlySet<string> = new Set([
  'contact',
  'output-voltage',
  'speed-reference',
  'input-sense',
  'input-use',
]);

/**
 * Everything of a machine that its circuits depend on. Two machines with equal fingerprints have the same circuits, at
 * the same places of the text: unchanged blocks of a text keep their nodes from one version to the next.
 */
export function fingerprintOf(machine: Machine): readonly unknown[] {
  const items: unknown[] = [machine.file];
  for (const part of machine.parts.values()) items.push(part.name, part.sheet, electricalSettings(part));
  for (const { at, from, to, wire } of machine.links) {
    // One text may hold several links, which differ by where they end.
    items.push(at, from.part, from.terminal, to.part, to.terminal, wire.own?.node, wire.shared?.node);
  }
  return items;
}

/** Whether two fingerprints are of the same circuits. */
export function isSameFingerprint(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}

/** What is set on a part of what changes its circuits, as one text. */
export function electricalSettings({ assigned, sheet }: Part): string {
  let text = '';
  for (const [name, { value }] of assigned) {
    if (ELECTRICAL.has(sheet?.settings.get(name)?.is ?? '')) text += `${name}\n${value?.text ?? ''}\n`;
  }
  return text;
}
