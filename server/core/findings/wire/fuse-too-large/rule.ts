import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { formatBest } from '../../../units/index.ts';
import { showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { leadsToFuse } from '../exempt.ts';
import { type Fuse, guardAt, mostThrough } from '../guards.ts';
import { capital, sizeOf, type WireAt, wiresOf } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/fuse-too-large',
  severity: 'error',
  title: later`A fuse lets more through than a wire behind it may carry`,
  find: findTooLarge,
  say: (data) =>
    say`${capital(word(data, 'wire'))} (${word(data, 'size')}) may carry ${word(data, 'capacity')}, and ${word(data, 'fuse')}, which is to protect it, lets ${word(data, 'rating')} through for ever. The wire burns before the fuse blows. Take a fuse of at most ${word(data, 'capacity')} or a thicker wire.`,
};

interface TooLarge {
  readonly wire: WireAt;
  readonly fuse: Fuse;
  readonly capacity: number;
}

/** At the places of the wires. */
const tooLarge = factOver('analysis', wiresOf, (analysis: MachineAnalysis, wire): TooLarge | undefined => {
  const guard = guardAt(analysis, wire.slot);
  const capacity = wire.values.capacity?.si;
  if (!guard?.fuse || capacity === undefined || !(mostThrough(guard) > capacity)) return undefined;
  if (wire.isOverloaded || leadsToFuse(analysis, wire, guard.fuse)) return undefined;
  return { wire, fuse: guard.fuse, capacity };
});

/** All thin wires behind one fuse are one mistake: the thinnest stands for them. */
function* findTooLarge(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const found = tooLarge(analysis).filter((each) => each !== undefined);
  for (const [, same] of groupBy(found, ({ fuse }) => fuse.at.part)) {
    const { wire, fuse } = same.reduce((a, b) => (b.capacity < a.capacity ? b : a));
    const capacity = wire.values.capacity;
    if (!capacity) continue;
    yield {
      at: wire.wire.at,
      data: {
        wire: wire.shown,
        size: sizeOf(wire),
        capacity: showBriefly(capacity),
        fuse: fuse.at.part.name,
        rating: formatBest(fuse.rating, 'current'),
      },
      related: [
        { at: fuse.at.part.key, note: `${fuse.at.part.name}, ${formatBest(fuse.rating, 'current')}` },
        ...same
          .filter((each) => each.wire !== wire)
          .slice(0, 8)
          .map((each) => ({ at: each.wire.link.at, note: say`too thin for it as well: ${each.wire.shown}` })),
      ],
    };
  }
}
