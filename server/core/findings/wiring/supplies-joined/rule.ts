import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { formatBest } from '../../../units/index.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { foundConflict } from '../conflict-finding.ts';
import { railConflicts } from '../rail-conflicts.ts';

export const rule: Rule = {
  code: 'wiring/supplies-joined',
  severity: 'error',
  title: later`Two supplies of different voltages are joined`,
  find: findJoined,
  say: (data) =>
    say`${word(data, 'supply')} gives ${word(data, 'volts')} and ${word(data, 'other')} gives ${word(data, 'otherVolts')}, and their plus sides are joined by way of ${word(data, 'path')}. The higher one drives a current into the lower, and what is fed from the lower gets too much. Find the link on that way which should not be there.`,
};

function* findJoined(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const conflict of railConflicts(analysis)) {
    const { supply, volts, other } = conflict;
    if (!other) continue;
    const [a, b] = [supply, other.at].map(({ part, circuit }) =>
      supply.part.name === other.at.part.name ? `${part.name}.${circuit.ends[0]?.text ?? ''}` : part.name,
    );
    yield foundConflict(analysis, conflict, {
      supply: a ?? '',
      volts: formatBest(volts, 'voltage', 3),
      other: b ?? '',
      otherVolts: formatBest(other.volts, 'voltage', 3),
    });
  }
}
