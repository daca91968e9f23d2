import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { lengthOf } from '../../../model/link-wire.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { showBriefly } from '../../../values/derived.ts';
import { hasFaultWithin } from '../../common/in-doubt.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { capital, type WireAt, wiresOf } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/length-missing',
  severity: 'hint',
  title: later`A wire has no length, so what it loses is not known`,
  find: findMissing,
  say: (data) =>
    say`${capital(word(data, 'wire'))} carries up to ${word(data, 'current')}, and its length is not written down: what is lost in it cannot be computed, and the cut list has a gap. Add \`length:\`.`,
};

/** Below this no length that fits a small machine loses anything to speak of (common practice, no source). */
const LEAST_AMPS = 0.1;

function* findMissing(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const missing = lacksLength(analysis).flatMap((wire) => wire ?? []);
  for (const [at, [first]] of groupBy(missing, ({ wire }) => wire.at)) {
    const current = first?.values.current;
    if (first && current) yield { at, data: { wire: first.shown, current: showBriefly(current) } };
  }
}

const lacksLength = factOver('analysis', wiresOf, (analysis: MachineAnalysis, wire): WireAt | undefined => {
  const { link, values } = wire;
  if (lengthOf(link) || (values.current?.si ?? 0) < LEAST_AMPS) return undefined;
  const isFaulty = [link.wire.own, link.wire.shared].some((fields) => hasFaultWithin(analysis, fields?.node));
  return isFaulty ? undefined : wire;
});
