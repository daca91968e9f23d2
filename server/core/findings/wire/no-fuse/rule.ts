import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { formatBest } from '../../../units/index.ts';
import { showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { suppliesInConflict } from '../../wiring/rail-conflicts.ts';
import { leadsToFuse } from '../exempt.ts';
import { guardAt, mostThrough } from '../guards.ts';
import { capital, sizeOf, type WireAt, wiresOf } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/no-fuse',
  severity: 'warning',
  title: later`No fuse protects a wire from what its supply can give`,
  find: findUnprotected,
  say: (data) =>
    say`${capital(word(data, 'wire'))} (${word(data, 'size')}) may carry ${word(data, 'capacity')}, and nothing stands between it and ${word(data, 'supply')}, which gives up to ${word(data, 'limit')}. In a short circuit it burns before the supply gives in. Put a fuse of at most ${word(data, 'capacity')} at the supply, or take a thicker wire.`,
};

interface Unprotected {
  readonly wire: WireAt;
  readonly supply: CircuitAt;
  /** What that gives, in A. */
  readonly limit: number;
  readonly capacity: number;
}

/** At the places of the wires. */
const unprotected = factOver(
  'analysis',
  wiresOf,
  (analysis: MachineAnalysis, wire): Unprotected | undefined => {
    const guard = guardAt(analysis, wire.slot);
    const capacity = wire.values.capacity?.si;
    if (!guard?.supply || guard.fuse || guard.limit === undefined || capacity === undefined) return undefined;
    if (mostThrough(guard) <= capacity || wire.isOverloaded || leadsToFuse(analysis, wire)) return undefined;
    return { wire, supply: guard.supply, limit: guard.limit, capacity };
  },
);

/** All wires of one terminal lack the same fuse, so they are one mistake: the thinnest stands for them. */
function* findUnprotected(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  // Through a short or a joined supply a wire seems to hang on what it does not.
  const conflicting = suppliesInConflict(analysis);
  const found = unprotected(analysis).flatMap((each) =>
    each && !conflicting.has(each.supply.part.name) ? [each] : [],
  );
  for (const [, same] of groupBy(found, ({ supply }) => supply.part)) {
    const { wire, supply, limit } = same.reduce((a, b) => (b.capacity < a.capacity ? b : a));
    const capacity = wire.values.capacity;
    if (!capacity) continue;
    yield {
      at: wire.wire.at,
      data: {
        wire: wire.shown,
        size: sizeOf(wire),
        capacity: showBriefly(capacity),
        supply: supply.part.name,
        limit: formatBest(limit, 'current'),
      },
      related: [
        { at: supply.part.key, note: say`${supply.part.name}, the supply` },
        ...same
          .filter((each) => each.wire !== wire)
          .slice(0, 8)
          .map((each) => ({ at: each.wire.link.at, note: say`not protected either: ${each.wire.shown}` })),
      ],
    };
  }
}
