import type { FromPage, ToPage } from '../../client/features/summary/messages.ts';
import type { SummaryItem } from '../../server/core/summary/summary.ts';
import type { SummaryPatch } from '../../server/protocol/private.ts';

export const URI = 'file:///work/half-hull.machine.yaml';

/** Plays editor and server: shows one machine and answers what differs, each item's text being its own hash. */
export function makeServer(items: () => readonly SummaryItem[], title = 'Half-hull router', broken = false) {
  return (message: FromPage): readonly ToPage[] => {
    if (message.kind === 'ready') return [{ kind: 'show', uri: URI, name: 'half-hull.machine.yaml' }];
    if (message.kind !== 'have') return [];
    const patches = comparePatches(items(), message.have);
    return [{ kind: 'changes', uri: message.uri, changes: { title, broken, patches } }];
  };
}

function comparePatches(
  items: readonly SummaryItem[],
  have: Readonly<Record<string, string>>,
): readonly SummaryPatch[] {
  const wanted = new Set(items.map(({ id }) => id));
  const removed = Object.keys(have).filter((id) => !wanted.has(id));
  const last = new Map<string, string>();
  const put = items.flatMap((item): SummaryPatch[] => {
    const { id, section } = item;
    const hash = JSON.stringify(item);
    const after = last.get(section) ?? null;
    last.set(section, id);
    return have[id] === hash ? [] : [{ kind: 'put', id, hash, section, after, item }];
  });
  return [...removed.map((id): SummaryPatch => ({ kind: 'remove', id })), ...put];
}
