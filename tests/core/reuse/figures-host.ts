import { changedKeys } from '../../../server/core/reuse/changed-keys.ts';
import { isSameMap } from '../../../server/core/reuse/same.ts';
import { TrackedMap } from '../../../server/core/reuse/tracked-map.ts';
import { type Source, Version } from '../../../server/core/reuse/version.ts';

const FIGURES: Source = { name: 'figures' };

/** What facts are tried on: figures by name, which note who reads them, and whatever else a test wants. */
export interface FiguresHost {
  readonly version: Version;
  readonly figures: ReadonlyMap<string, number>;
}

/** Begins a version with these figures, of which facts of the kind `sums` are worked out. */
export function beginWith<T>(
  figures: ReadonlyMap<string, number>,
  more: T,
  before?: FiguresHost,
): FiguresHost & T {
  const version = new Version(before?.version);
  const held = version.put(FIGURES, new Map(figures), isSameMap, changedKeys);
  const host = { version, figures: new TrackedMap<number>(version, FIGURES, held), ...more };
  version.hosts.set('sums', host);
  return host;
}
