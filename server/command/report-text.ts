import { say } from '../core/language/say.ts';
import { describeSilenced } from '../core/silence/describe.ts';
import { listSettings } from '../core/summary/settings/rows.ts';
import { showBriefly } from '../core/values/derived.ts';
import type { Loaded } from './load.ts';
import { printSettingsText } from './settings/print.ts';

/** The headline numbers of a machine, for a terminal. */
export function printReportText({ analysis, fettle }: Loaded): string {
  if (analysis.kind !== 'machine') return '';
  const { machine, values, feeds } = analysis;
  const value = (address: string) => values.byAddress.get(address);
  const lines = [machine.title, ''];
  for (const axis of machine.axes.values()) {
    const base = `axes.${axis.name}`;
    const feed = value(`${base}.top-feed`);
    const margin = value(`${base}.timing.lead-margin`);
    const scale = value(`${base}.pulses-per-length`)?.shown ?? say`no scale yet`;
    const top = feed ? say`top feed ${showBriefly(feed)} (${feed.limit})` : say`top feed not known yet`;
    const lead = margin ? say`lead margin ${margin.shown}` : say`lead margin not known yet`;
    lines.push(`${`  ${axis.name}  ${scale}`.padEnd(23)} ${top.padEnd(43)} ${lead}`);
  }
  lines.push('');
  for (const feed of feeds) {
    const reached = value(`parts.${feed.load.part.name}.supply-voltage`);
    const [from, to] = [feed.supply.part.name, feed.load.part.name];
    lines.push(`  ${reached ? say`${from} feeds ${to} with ${reached.shown}` : say`${from} feeds ${to}`}`);
  }
  const sheet = printSettingsText(listSettings(analysis));
  const silenced = fettle.silenced(analysis).map((each) => `  ${describeSilenced(each)}\n`);
  const hidden = silenced.length === 0 ? '' : `\n${say`Found and silenced`}\n\n${silenced.join('')}`;
  return `${[...new Set(lines)].join('\n')}\n${sheet === '' ? '' : `\n${say`Settings to key in`}\n\n${sheet}`}${hidden}`;
}
