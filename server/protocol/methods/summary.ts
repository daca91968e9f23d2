import { hashText } from '../../core/summary/hash.ts';
import type { SummaryItem } from '../../core/summary/summary.ts';
import { toSpanRange } from '../convert.ts';
import { guard } from '../guard.ts';
import {
  PLACE_OF,
  type PlaceOf,
  type PlaceOfParams,
  SUMMARY_CHANGES,
  type SummaryChanges,
  type SummaryChangesParams,
  type SummaryPatch,
  THING_AT,
  type ThingAtParams,
} from '../private.ts';
import type { Session } from '../session.ts';

/** The wiring summary: what differs from what a page shows, and the way between page and text. */
export function registerSummary(session: Session): void {
  const { connection, fettle } = session;
  const nothing: SummaryChanges = { title: '', broken: false, patches: [] };
  connection.onRequest(
    SUMMARY_CHANGES,
    guard(
      connection,
      'summary',
      nothing,
      async ({ uri, have }: SummaryChangesParams): Promise<SummaryChanges> => {
        const analysed = await session.analysisOf(uri);
        if (!analysed) return nothing;
        const summary = fettle.summary(analysed.analysis);
        return {
          title: summary.title,
          ...(summary.revision !== undefined && { revision: summary.revision }),
          broken: summary.broken,
          patches: summary.broken ? keepPicture(summary.items, have) : diffItems(summary.items, have),
        };
      },
    ),
  );
  connection.onRequest(
    PLACE_OF,
    guard(connection, 'place', null, async ({ uri, id }: PlaceOfParams): Promise<PlaceOf | null> => {
      const analysed = await session.analysisOf(uri);
      const at = analysed && fettle.placeOf(analysed.analysis, id);
      return at ? { uri: analysed.document.uri, range: toSpanRange(analysed, at) } : null;
    }),
  );
  connection.onRequest(
    THING_AT,
    guard(connection, 'thing', null, async ({ uri, position }: ThingAtParams): Promise<string | null> => {
      const analysed = await session.analysisOf(uri);
      return (analysed && fettle.idAt(analysed.analysis, analysed.document.offsetAt(position))) ?? null;
    }),
  );
}

const hashes = new WeakMap<SummaryItem, string>();

function hashOf(item: SummaryItem): string {
  let hash = hashes.get(item);
  if (hash === undefined) {
    hash = hashText(JSON.stringify(item));
    hashes.set(item, hash);
  }
  return hash;
}

/** The ordered changes that make a page show these items. */
export function diffItems(
  items: readonly SummaryItem[],
  have: Readonly<Record<string, string>>,
): SummaryPatch[] {
  const wanted = new Set(items.map((item) => item.id));
  const shown = Object.keys(have).filter((id) => wanted.has(id));
  const removals = Object.keys(have)
    .filter((id) => !wanted.has(id))
    .map((id): SummaryPatch => ({ kind: 'remove', id }));
  const moved = movedFrom(items, shown);
  const puts = items.flatMap((item, index): SummaryPatch[] => {
    const hash = hashOf(item);
    if (Object.hasOwn(have, item.id) && have[item.id] === hash && !moved.has(item.id)) return [];
    return [
      { kind: 'put', id: item.id, hash, section: item.section, after: items[index - 1]?.id ?? null, item },
    ];
  });
  return [...removals, ...puts];
}

/** The items that a page shows in another order than wanted: all from the first one that is out of place. */
function movedFrom(items: readonly SummaryItem[], shown: readonly string[]): ReadonlySet<string> {
  const present = new Set(shown);
  const order = items.map((item) => item.id).filter((id) => present.has(id));
  const first = order.findIndex((id, index) => id !== shown[index]);
  return new Set(first < 0 ? [] : order.slice(first));
}

/** While the text is broken a page that shows something keeps it, but for the findings, which say what is wrong. */
function keepPicture(items: readonly SummaryItem[], have: Readonly<Record<string, string>>): SummaryPatch[] {
  const patches = diffItems(items, have);
  return Object.keys(have).length === 0 ? patches : patches.filter((patch) => patch.id === 'findings');
}
