import type { Analysis } from '../core/analysis.ts';
import { type NotComputed, sayNotComputed } from '../core/features/not-computed.ts';
import type { Fettle } from '../core/fettle.ts';
import { say } from '../core/language/say.ts';

/** How much is computed, and a line for each thing that is lacking. */
export function sayLacks(computed: string, lacks: readonly NotComputed[]): string {
  if (lacks.length === 0) return `${say`${computed}, and nothing is lacking for more.`}\n`;
  return `${say`${computed}. Not computed:`}\n\n${lacks.map((lack) => `  ${sayNotComputed(lack)}\n`).join('')}`;
}

/** What is not computed for want of a figure on a part sheet. */
export function saySheetLacks(fettle: Fettle, analysis: Analysis): string {
  const found = fettle.sheetLacks(analysis);
  if (!found || found.computed + found.lacks.length === 0)
    return `${say`Nothing is computed from this sheet; it says where wires go.`}\n`;
  return sayLacks(
    say`On a bench where everything else is known, ${found.computed} values are computed`,
    found.lacks,
  );
}
