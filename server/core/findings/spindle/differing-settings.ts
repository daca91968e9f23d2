import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import type { Data } from '../../problem.ts';
import type { Found } from '../rule.ts';
import { type Differing, findDiffering, fixesOf } from '../setting/follow.ts';

/** Findings about settings of the spindle that differ from what follows, each with the words that it needs. */
export function* findSpindleSettings(
  analysis: Analysis,
  meanings: readonly string[],
  dataOf: (differing: Differing, analysis: MachineAnalysis) => Data,
): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const differing of findDiffering(analysis)) {
    const { keyed, change } = differing;
    if (!meanings.includes(keyed.setting.is ?? '')) continue;
    yield {
      at: keyed.origin === 'set' ? keyed.scalar : keyed.part.key,
      data: {
        part: keyed.part.name,
        setting: keyed.setting.name,
        now: keyed.scalar.text,
        wanted: change.text,
        ...dataOf(differing, analysis),
      },
      fixes: fixesOf(analysis, differing),
    };
  }
}
