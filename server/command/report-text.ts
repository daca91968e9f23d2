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
    lines.push(
      `  ${axis.name}  ${value(`${base}.pulses-per-length`)?.shown ?? 'no scale yet'}`.padEnd(24) +
        `top feed ${feed ? `${showBriefly(feed)} (${feed.limit})` : 'not known yet'}`.padEnd(44) +
        `lead margin ${value(`${base}.timing.lead-margin`)?.shown ?? 'not known yet'}`,
    );
  }
  lines.push('');
  for (const feed of feeds) {
    const reached = value(`parts.${feed.load.part.name}.supply-voltage`);
    lines.push(
      `  ${feed.supply.part.name} feeds ${feed.load.part.name}${reached ? ` with ${reached.shown}` : ''}`,
    );
  }
  const sheet = printSettingsText(listSettings(analysis));
  const silenced = fettle.silenced(analysis).map((each) => `  ${describeSilenced(each)}\n`);
  const hidden = silenced.length === 0 ? '' : `\nFound and silenced\n\n${silenced.join('')}`;
  return `${[...new Set(lines)].join('\n')}\n${sheet === '' ? '' : `\nSettings to key in\n\n${sheet}`}${hidden}`;
}
